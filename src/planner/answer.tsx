import { COLOUR_CODES } from '../published/index.ts';
import { ALSO_MADE, type CorePlan, type PlannedCore } from '../wiring/core-planner/index.ts';

interface Props {
  readonly plan: CorePlan;
  /** Called where the cable there is too small and another is to be chosen. */
  readonly onChoose: () => void;
}

/** The cables of a plan with their cores, what has no core, and what to bear in mind. */
export function Answer({ plan, onChoose }: Props) {
  const { cables, homeless, needed, notes } = plan;
  if (needed === 0)
    return <p>Nothing is asked for yet: add what has to get from one place to the other.</p>;
  const there = cables.reduce((sum, { set }) => sum + set.colours.length, 0);
  return (
    <>
      {homeless.length > 0 && (
        <div class="caution">
          <p>
            <strong class="caution-word">No core</strong> for{' '}
            {homeless.map(({ title }) => title).join(', ')}. Needed {needed}, there {there}.
          </p>
          <p>
            A missing core is never made up by the green-yellow one, a pipe or a neutral from
            elsewhere.
          </p>
          <button type="button" class="plan-button" onClick={onChoose}>
            Choose a cable that does
          </button>
        </div>
      )}
      {cables.map(({ set, cores }, i) => (
        // A plan has no two cables in one place.
        <section key={`${i} ${set.id}`} class="planned-cable">
          <h3>{cables.length > 1 ? `Cable ${i + 1}: ${set.title}` : set.title}</h3>
          {ALSO_MADE[set.id] && <p class="quiet">{`Or: ${ALSO_MADE[set.id]}.`}</p>}
          <ul class="core-list">
            {cores.map((core) => (
              <CoreRow key={core.colour} core={core} />
            ))}
          </ul>
        </section>
      ))}
      <h3>Bear in mind</h3>
      <ul class="plain-list">
        {notes.map(({ text, source }) => (
          <li key={text}>
            {text} <span class="quiet">{sourceText(source)}</span>
          </li>
        ))}
      </ul>
    </>
  );
}

/** One core of a plan: colour, what it carries, and the sleeve its ends need. */
const CoreRow = ({ core: { colour, need, sleeve } }: { readonly core: PlannedCore }) => (
  <li>
    <span class="core-name">
      <span
        class={`swatch ${colour} ${sleeve ? `sleeved sleeve-${sleeve}` : ''}`}
        aria-hidden="true"
      />
      <b class="core-code">{colour}</b> <span>{COLOUR_CODES[colour]}</span>
    </span>
    <span class={need ? 'core-need' : 'core-need quiet'}>
      {need?.title ?? 'spare'}
      {sleeve && (
        <span class="sleeve-word">
          sleeved {sleeve} {COLOUR_CODES[sleeve]}
        </span>
      )}
    </span>
  </li>
);

/** A source with its standing where its words do not say it. */
const sourceText = ({ cite, standing }: CorePlan['notes'][number]['source']): string =>
  standing === 'common practice'
    ? 'Common practice, no source.'
    : standing === 'seen' || cite.includes(standing)
      ? `${cite}.`
      : `${cite} (${standing}).`;
