import { Caution, href } from '../../job/ui/parts.tsx';
import type { Beside } from '../compare.ts';
import type { Worked } from './app.tsx';

/** All that differs between two systems, the gravest to know first. */
export function Differences({ worked }: { readonly worked: Worked }) {
  const { comparison, standing, wrong, acts, isDone } = worked;
  const { titles, both, equipment, conductors, joinedAlike, modes, onlyModes } = comparison;
  const isOtherwise = equipment.length + conductors.length + modes.length > 0;
  return (
    <div class="differences">
      <dl class="compared-titles">
        {titles.map((title, i) => (
          <div key={String(i)}>
            <dt>{i === 0 ? 'One' : 'Other'}</dt>
            <dd>
              <b>{title}</b>
              {wrong[i]!.map((line) => (
                <Caution key={line}>Not in order. {line}</Caution>
              ))}
              {standing[i] !== '' && <p class="proven">{standing[i]}</p>}
            </dd>
          </div>
        ))}
      </dl>
      <Caution>
        A reading with the supply on is live work: only by a person competent in it, dry, others
        away, tester proved before and after, leads to GS38.{' '}
        <a href={href('/procedures/safe-isolation/')}>Isolate, lock off, prove dead</a> before any
        cover comes off.
      </Caution>
      {!isOtherwise && <p>No difference of equipment, wiring, outcomes or readings.</p>}
      <h2>Equipment</h2>
      {both.length > 0 && (
        <p>
          <b>In both:</b> {both.join('; ')}.
        </p>
      )}
      <Rows rows={equipment} none="None is in one alone." />
      <h2>What is joined otherwise</h2>
      <p class="quiet">
        Terminals that both have; through boxes, whose numbers are left out, and without neutrals
        and earths. {joinedAlike} are joined alike.
      </p>
      <Rows rows={conductors} none="None is joined otherwise." />
      <h2>Seen and read otherwise</h2>
      <p class="quiet">
        On the two-pole tester, at terminals that both have and that are read there, where the class
        of the reading differs.
      </p>
      {modes.length === 0 && <p>Nothing, in the modes that both have.</p>}
      {modes.map(({ title, brought, seen, readings }) => (
        <details key={title} class="fold" open>
          <summary>
            <b>{title}</b> <span class="quiet">{seen.length + readings.length}</span>
          </summary>
          {brought && (
            <p>
              The mode itself is not the same on both sides:{' '}
              {[
                brought.a && `with the one, ${brought.a}`,
                brought.b && `with the other, ${brought.b}`,
              ]
                .filter(Boolean)
                .join('; ')}
              .
            </p>
          )}
          <Rows rows={[...seen, ...readings]} none="" />
        </details>
      ))}
      {(onlyModes.a !== '' || onlyModes.b !== '') && (
        <>
          <h3>Modes of one alone</h3>
          <Rows rows={[onlyModes]} none="" />
        </>
      )}
      <h2>Looked at first</h2>
      <p class="quiet">By complaint, where it worked until now; those that both can show.</p>
      <Rows rows={acts} none={isDone ? 'No complaint is one of both.' : ''} />
      {!isDone && <p role="status">Working out the first acts.</p>}
      <p class="off-paper">
        <button type="button" class="plain" onClick={() => print()}>
          Print
        </button>
      </p>
    </div>
  );
}

/** What each side has, one thing after another: stacked under the thumb, in columns on paper. */
const Rows = ({ rows, none }: { readonly rows: readonly Beside[]; readonly none: string }) =>
  rows.length === 0 ? (
    none === '' ? null : (
      <p>{none}</p>
    )
  ) : (
    <table class="stack beside">
      <thead>
        <tr>
          <th scope="col">What</th>
          <th scope="col">One</th>
          <th scope="col">Other</th>
        </tr>
      </thead>
      <tbody>
        {rows.map(({ what, a, b }, i) => (
          <tr key={`${what} ${i}`}>
            <th scope="row">{what}</th>
            <td data-label="One">{a || <span class="quiet">not there</span>}</td>
            <td data-label="Other">{b || <span class="quiet">not there</span>}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
