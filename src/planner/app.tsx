import { useEffect, useMemo, useRef, useState } from 'preact/hooks';
import {
  type CoreRequest,
  fragmentOf,
  NOTHING_ASKED,
  planCores,
  readFragment,
} from '../wiring/core-planner/index.ts';
import { Answer } from './answer.tsx';
import { Ask } from './ask.tsx';

/** The planner: what is asked stands in the address, so that it can be kept and sent. */
export function App() {
  const [{ request, problems }, setRead] = useState(() => readFragment(location.hash));
  const plan = useMemo(() => planCores(request), [request]);
  const top = useRef<HTMLHeadingElement>(null);

  useEffect(() => {
    const follow = () => {
      // A place on the page leaves what was asked as it is.
      if (!location.hash.includes('=')) return;
      setRead(readFragment(location.hash));
      top.current?.scrollIntoView();
      top.current?.focus({ preventScroll: true });
    };
    addEventListener('hashchange', follow);
    return () => removeEventListener('hashchange', follow);
  }, []);

  const change = (next: CoreRequest) => {
    const fragment = fragmentOf(next);
    history.replaceState(
      null,
      '',
      fragment === '' ? location.origin + location.pathname : `#${fragment}`,
    );
    setRead({ request: next, problems: [] });
  };

  return (
    <>
      <h2 ref={top} tabIndex={-1}>
        What has to be carried?
      </h2>
      {problems.length > 0 && (
        <div role="alert" class="caution">
          <p>Part of the address was left out:</p>
          <ul class="plain-list">
            {problems.map((problem) => (
              <li key={problem}>{problem}</li>
            ))}
          </ul>
        </div>
      )}
      <Ask request={request} onChange={change} />
      {plan.needed > 0 && (
        <p>
          <button type="button" class="plan-quiet" onClick={() => change(NOTHING_ASKED)}>
            Start again
          </button>
        </p>
      )}
      <h2>Cable and cores</h2>
      <p class="unseen" role="status">
        {`${plan.needed} cores asked for, ${plan.homeless.length} without a core.`}
      </p>
      <Answer plan={plan} onChoose={() => change({ ...request, there: null })} />
    </>
  );
}
