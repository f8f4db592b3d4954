import { MOST_ZOOM } from '../../diagram/spacing.ts';

const LEAST_ZOOM = 0.3;
const STEP = 1.25;
/** A finger that has moved less has tapped, px. */
const TAP = 8;

/** A drawing that is moved and enlarged within its frame. */
export interface Zoom {
  readonly larger: () => void;
  readonly smaller: () => void;
  readonly fit: () => void;
  /** Gives the drawing its natural size back and lets go of the frame. */
  readonly stop: () => void;
}

/** Lets a finger move a frame's drawing, two fingers enlarge it, and a wheel with Ctrl. */
export function zoomIn(frame: HTMLElement): Zoom {
  let zoom = 1;
  const drawings = [...frame.querySelectorAll<SVGSVGElement>('svg.circuit')];
  const shown = () => drawings.find((svg) => svg.getClientRects().length > 0) ?? drawings[0]!;

  const zoomTo = (wanted: number, x = frame.clientWidth / 2, y = frame.clientHeight / 2) => {
    const before = zoom;
    zoom = Math.min(MOST_ZOOM, Math.max(LEAST_ZOOM, wanted));
    for (const svg of drawings) {
      svg.style.width = `${svg.viewBox.baseVal.width * zoom}px`;
      svg.style.minWidth = '0';
    }
    // What was under the fingers stays there.
    frame.scrollLeft = ((frame.scrollLeft + x) * zoom) / before - x;
    frame.scrollTop = ((frame.scrollTop + y) * zoom) / before - y;
  };
  const toFit = () => {
    const { width, height } = shown().viewBox.baseVal;
    const across = frame.clientWidth / width;
    zoomTo(width > height ? Math.min(across, frame.clientHeight / height) : across);
  };

  toFit();

  const fingers = new Map<number, { x: number; y: number }>();
  let moved = 0;
  const spread = () => {
    const [a, b] = [...fingers.values()];
    return a && b ? Math.hypot(a.x - b.x, a.y - b.y) : 0;
  };
  const down = (event: PointerEvent) => {
    if (fingers.size === 0) moved = 0;
    fingers.set(event.pointerId, { x: event.clientX, y: event.clientY });
  };
  const move = (event: PointerEvent) => {
    const before = fingers.get(event.pointerId);
    if (!before) return;
    const old = spread();
    const [dx, dy] = [event.clientX - before.x, event.clientY - before.y];
    fingers.set(event.pointerId, { x: event.clientX, y: event.clientY });
    moved += Math.hypot(dx, dy);
    if (moved < TAP) return;
    const share = 1 / fingers.size;
    frame.scrollBy(-dx * share, -dy * share);
    if (old === 0) return;
    const { left, top } = frame.getBoundingClientRect();
    const points = [...fingers.values()];
    const middle = (axis: 'x' | 'y') => points.reduce((sum, p) => sum + p[axis], 0) / points.length;
    zoomTo((zoom * spread()) / old, middle('x') - left, middle('y') - top);
  };
  const up = (event: PointerEvent) => fingers.delete(event.pointerId);
  const wheel = (event: WheelEvent) => {
    if (!event.ctrlKey) return;
    event.preventDefault();
    const { left, top } = frame.getBoundingClientRect();
    zoomTo(zoom * Math.exp(-event.deltaY / 300), event.clientX - left, event.clientY - top);
  };
  const click = (event: MouseEvent) => {
    if (moved < TAP) return;
    event.preventDefault();
    event.stopPropagation();
  };
  const gone = new AbortController();
  const { signal } = gone;
  frame.addEventListener('pointerdown', down, { signal });
  frame.addEventListener('dragstart', (event) => event.preventDefault(), { signal });
  addEventListener('pointermove', move, { signal });
  addEventListener('pointerup', up, { signal });
  addEventListener('pointercancel', up, { signal });
  frame.addEventListener('wheel', wheel, { passive: false, signal });
  frame.addEventListener('click', click, { capture: true, signal });
  return {
    larger: () => zoomTo(zoom * STEP),
    smaller: () => zoomTo(zoom / STEP),
    fit: toFit,
    stop() {
      gone.abort();
      for (const svg of drawings) svg.removeAttribute('style');
    },
  };
}
