import { itemOf } from '../../wiring/points.ts';
import { wayWords } from '../../wiring/spoken.ts';
import type { View } from '../view.ts';
import { Core } from './core.tsx';

const Point = ({ at }: { readonly at: string }) => (
  <span>
    <span class="point">
      <span>
        {wayWords(at)} <small>({itemOf(at)})</small>
      </span>
    </span>
  </span>
);

/** Which core of which cable joins which terminals, and what for. */
export const Wiring = ({ view: { wiring } }: { readonly view: View }) => (
  <section id="wiring" aria-labelledby="wiring-title">
    <h2 id="wiring-title">Wiring table</h2>
    <p class="quiet">
      What joins what follows from the parts. Numbers of ways, lengths, sizes and colours are common
      practice and ours: in the box, go by what comes in at each way.
    </p>
    <table class="stack wiring-table">
      <thead>
        <tr>
          <th scope="col">Core</th>
          <th scope="col">From</th>
          <th scope="col">To</th>
          <th scope="col">For</th>
        </tr>
      </thead>
      {wiring.runs.map(({ cable, kind, size, length, spare, rows }) => (
        <tbody key={cable}>
          <tr class="group">
            <th scope="rowgroup" colSpan={4}>
              <b class="point">{cable}</b> {kind}, {size} mm², {length} m
              {spare.length > 0 && <span class="quiet">, spare {spare.join(', ')}</span>}
            </th>
          </tr>
          {rows.map((row) => (
            <tr key={row.id}>
              <th scope="row">
                <Core colour={row.colour} sleeve={row.sleeve} />
              </th>
              <td data-label="From">
                <Point at={row.from.point} />
              </td>
              <td data-label="To">
                <Point at={row.to.point} />
              </td>
              <td data-label="For">{row.function}</td>
            </tr>
          ))}
        </tbody>
      ))}
      {wiring.links.length > 0 && (
        <tbody>
          <tr class="group">
            <th scope="rowgroup" colSpan={4}>
              Wire links
            </th>
          </tr>
          {wiring.links.map(({ id, from, to, why }) => (
            <tr key={id}>
              <th scope="row">Link</th>
              <td data-label="From">
                <Point at={from} />
              </td>
              <td data-label="To">
                <Point at={to} />
              </td>
              <td data-label="For">{why ?? '–'}</td>
            </tr>
          ))}
        </tbody>
      )}
    </table>
  </section>
);
