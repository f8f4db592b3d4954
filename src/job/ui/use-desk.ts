import { useEffect, useMemo, useState } from 'preact/hooks';
import { startEngine } from '../client.ts';
import { openJobStore } from '../database.ts';
import { Desk } from '../desk.ts';
import type { DeskState } from '../desk-state.ts';
import { newDraft, withPoint } from '../draft.ts';
import { keepVisits, readVisits } from '../kept-visits.ts';
import type { EngineSource } from '../messages.ts';
import { pointIn } from '../sheet.ts';
import type { Subject } from '../subject.ts';
import { visitsOf } from '../visits.ts';
import { idNow, type SystemChoice } from './choices.ts';
import { href } from './parts.tsx';
import { goTo, type Route, rememberOpen, routeOf } from './route.ts';

/** Where the engine finds what a job is about. */
function sourceOf(subject: Subject, parts: string): EngineSource {
  const whole = (path: string) => new URL(path, location.href).href;
  return subject.kind === 'composed'
    ? { specification: subject.specification, parts: whole(parts) }
    : { address: whole(href(`/job/${subject.id}.json`)) };
}

/** A desk on a page of the site, and where its address points. */
export interface DeskOfPage {
  readonly desk: Desk;
  /** undefined until there is anything to show. */
  readonly state: DeskState | undefined;
  readonly route: Route;
}

/**
 * The desk that every page with jobs works at: it opens the job that the address names, and
 * lays it aside when the address leads elsewhere.
 * @param parts root-relative address of the parts that arrangements are composed from.
 */
export function useDesk(systems: readonly SystemChoice[], parts: string): DeskOfPage {
  const [state, setState] = useState<DeskState>();
  const routeNow = (): Route => {
    const route = routeOf(location);
    return { ...route, system: route.system && idNow(systems, route.system) };
  };
  const [route, setRoute] = useState(routeNow);
  const desk = useMemo(
    () =>
      new Desk(
        {
          openStore: openJobStore,
          systemNow: (id) => idNow(systems, id),
          startEngine: (subject, heard) => startEngine(sourceOf(subject, parts), heard),
          remember: rememberOpen,
          afterPaint,
        },
        setState,
      ),
    [],
  );
  useEffect(() => {
    void desk.start();
    const follow = () => {
      // The way past the head of every page leads to no job, and from none.
      if (location.hash !== '#main') setRoute(routeNow());
      else if (desk.state.job) history.replaceState(null, '', `#${desk.state.job.id}`);
    };
    const flush = () => desk.flush();
    addEventListener('hashchange', follow);
    addEventListener('pagehide', flush);
    document.addEventListener('visibilitychange', flush);
    return () => {
      removeEventListener('hashchange', follow);
      removeEventListener('pagehide', flush);
      document.removeEventListener('visibilitychange', flush);
    };
  }, [desk]);
  const ready = state?.ready === true;
  useEffect(() => {
    if (!ready) return;
    if (route.job === null) {
      if (desk.state.job) void desk.close();
      return;
    }
    const open = async (id: string) => {
      if (await desk.open(id)) return;
      // Closing a job takes away what was said in it, so this is said after.
      await desk.close();
      desk.say(
        desk.state.unread.some((one) => one.id === id)
          ? 'That job cannot be read by these pages: it stands in the list, with its file.'
          : 'That job is not kept in this browser.',
      );
      goTo('#all');
    };
    open(route.job).catch((failure: unknown) => {
      const why = failure instanceof Error ? failure.message : String(failure);
      desk.say(`That job could not be opened: ${why}. It is kept as it is.`);
      goTo('#all');
    });
  }, [desk, ready, route]);
  const { specification } = route;
  useEffect(() => {
    // Composed for the open job whose system nobody knew: it is taken into it once.
    if (!ready || specification === null || route.job === null) return;
    if (state?.job?.id !== route.job) return;
    history.replaceState(null, '', `${location.origin}${location.pathname}#${route.job}`);
    desk.recogniseComposed(specification);
    setRoute(routeNow());
  }, [desk, ready, route, state?.job?.id]);
  const { terminal } = route;
  const sheet = state?.job?.id === route.job ? state?.sheet : null;
  useEffect(() => {
    if (terminal === null || !sheet || !desk.state.job) return;
    // Once: whoever turns elsewhere is not brought back by the address.
    history.replaceState(null, '', `#${desk.state.job.id}`);
    if (pointIn(sheet, terminal))
      desk.turn({
        view: 'readings',
        draft: withPoint(sheet, newDraft(desk.state.job), terminal),
      });
    setRoute(routeNow());
  }, [desk, terminal, sheet]);
  useEffect(() => {
    if (state?.ready && state.kept === 'device') keepVisits(visitsOf(state, readVisits() ?? []));
  }, [state]);
  return { desk, state, route };
}

/** Longest wait for a frame, ms: a page in the background paints no frames. */
const MOST_WAIT_MS = 150;

/** Calls once, after the next frame is painted. */
function afterPaint(call: () => void): void {
  let called = false;
  const once = () => {
    if (called) return;
    called = true;
    call();
  };
  requestAnimationFrame(() => setTimeout(once));
  setTimeout(once, MOST_WAIT_MS);
}
