import {
  CABLE_SETS,
  CORE_FUNCTIONS,
  type CoreRequest,
  FUNCTION_IDS,
  type FunctionId,
} from '../wiring/core-planner/index.ts';

interface Props {
  readonly request: CoreRequest;
  readonly onChange: (request: CoreRequest) => void;
}

/** What has to be carried, how blue may be used, and whether a cable is there already. */
export function Ask({ request, onChange }: Props) {
  const { counts, blueAsLive, there } = request;
  const set = (id: FunctionId, count: number) =>
    onChange({ ...request, counts: { ...counts, [id]: count } });
  return (
    <>
      <ul class="asked">
        {FUNCTION_IDS.map((id) => (
          <Count key={id} id={id} count={counts[id] ?? 0} onCount={(count) => set(id, count)} />
        ))}
      </ul>
      <label class="plan-tick">
        <input
          type="checkbox"
          checked={blueAsLive}
          onChange={(event) => onChange({ ...request, blueAsLive: event.currentTarget.checked })}
        />
        <span>A blue core may be a live, sleeved brown</span>
      </label>
      <label class="plan-choice">
        <span class="plan-label">Cable already there</span>
        <select
          value={there ?? ''}
          onChange={(event) => onChange({ ...request, there: event.currentTarget.value || null })}
        >
          <option value="">none, choose one</option>
          {CABLE_SETS.map(({ id, title, colours }) => (
            <option key={id} value={id}>
              {title}: {colours.join(' ')}
            </option>
          ))}
        </select>
      </label>
    </>
  );
}

interface CountProps {
  readonly id: FunctionId;
  readonly count: number;
  readonly onCount: (count: number) => void;
}

/** How many of one function, with a key to take one off and one to add one. */
function Count({ id, count, onCount }: CountProps) {
  const { title, cores, most } = CORE_FUNCTIONS[id];
  return (
    <li>
      <span id={`asked-${id}`}>
        {title}
        {cores.length > 1 && <span class="quiet"> {cores.length} cores</span>}
      </span>
      <button
        type="button"
        aria-label={`One ${title} less`}
        disabled={count === 0}
        onClick={() => onCount(count - 1)}
      >
        −
      </button>
      <output aria-labelledby={`asked-${id}`}>{count}</output>
      <button
        type="button"
        aria-label={`One ${title} more`}
        disabled={count === most}
        onClick={() => onCount(count + 1)}
      >
        +
      </button>
    </li>
  );
}
