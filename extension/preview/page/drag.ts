// Dragging what stands in the plan, by pointer or by arrow keys: turns both into places in metres. Knows nothing of rooms.

import type { Movable, PlanPlace } from '../../../core/parts/moveThing.ts';
import { readMovable } from './moveRoom.ts';

export interface DragHandlers {
  /** Where the thing stands in the file; null where it cannot be moved. */
  readonly start: (movable: Movable) => PlanPlace | null;
  readonly move: (movable: Movable, place: PlanPlace) => void;
  /** Its last place is meant. */
  readonly end: () => void;
  readonly cancel: () => void;
}

/** Less than this is a click by an unsteady hand. */
const THRESHOLD_PX = 4;
const KEY_STEP_M = 0.05;
const FINE_STEP_M = 0.01;
/** Arrow presses closer together than this are one move, one step to undo. */
const KEYS_REST_MS = 700;

const ARROWS: ReadonlyMap<string, readonly [number, number]> = new Map([
  ['ArrowLeft', [-1, 0]],
  ['ArrowRight', [1, 0]],
  ['ArrowUp', [0, -1]],
  ['ArrowDown', [0, 1]],
]);

interface Held {
  readonly movable: Movable;
  readonly from: PlanPlace;
  readonly x: number;
  readonly y: number;
  readonly scale_px_m: number;
  readonly pointerId: number;
  /** Past the threshold: no longer a click. */
  readonly isMoving: boolean;
}

/** The answer ends both ways of dragging. */
export function followDrags(root: HTMLElement, handlers: DragHandlers): () => void {
  const control = new AbortController();
  followPointer(root, handlers, control.signal);
  followArrows(root, handlers, control.signal);
  return () => control.abort();
}

function followPointer(root: HTMLElement, handlers: DragHandlers, signal: AbortSignal): void {
  let held: Held | null = null;
  const letGo = (): boolean => {
    const wasMoving = held?.isMoving === true;
    held = null;
    return wasMoving;
  };
  const onMove = (event: PointerEvent): void => {
    if (held === null || event.pointerId !== held.pointerId) return;
    const across_px = event.clientX - held.x;
    const down_px = event.clientY - held.y;
    if (!held.isMoving && Math.hypot(across_px, down_px) < THRESHOLD_PX) return;
    held = { ...held, isMoving: true };
    handlers.move(held.movable, {
      x_m: held.from.x_m + across_px / held.scale_px_m,
      y_m: held.from.y_m + down_px / held.scale_px_m,
    });
  };
  const onUp = (event: PointerEvent): void => {
    if (event.pointerId !== held?.pointerId || !letGo()) return;
    swallowClick();
    handlers.end();
  };
  const cancel = (): void => {
    if (letGo()) handlers.cancel();
  };
  root.addEventListener(
    'pointerdown',
    (event) => {
      if (event.button === 0) held = pickUp(event, handlers);
    },
    { signal },
  );
  window.addEventListener('pointermove', onMove, { signal });
  window.addEventListener('pointerup', onUp, { signal });
  window.addEventListener('pointercancel', cancel, { signal });
  window.addEventListener('keydown', ({ key }) => (key === 'Escape' ? cancel() : undefined), {
    signal,
  });
  signal.addEventListener('abort', cancel);
}

/** Arrow presses in one go are one move; a pause, another thing or leaving it ends the move. */
function followArrows(root: HTMLElement, handlers: DragHandlers, signal: AbortSignal): void {
  let keyed: { readonly movable: Movable; readonly place: PlanPlace } | null = null;
  let pause: ReturnType<typeof setTimeout> | undefined;
  const stop = (how: 'end' | 'cancel'): void => {
    clearTimeout(pause);
    if (keyed === null) return;
    keyed = null;
    handlers[how]();
  };
  const onKey = (event: KeyboardEvent): void => {
    if (event.key === 'Escape') stop('cancel');
    const arrow = ARROWS.get(event.key);
    const movable = movableUnder(event.target);
    if (arrow === undefined || movable === null) return;
    if (keyed !== null && !isSame(keyed.movable, movable)) stop('end');
    const from = keyed?.place ?? handlers.start(movable);
    if (from === null) return;
    event.preventDefault();
    const step_m = event.shiftKey ? FINE_STEP_M : KEY_STEP_M;
    const place = { x_m: from.x_m + arrow[0] * step_m, y_m: from.y_m + arrow[1] * step_m };
    keyed = { movable, place };
    handlers.move(movable, place);
    clearTimeout(pause);
    pause = setTimeout(() => stop('end'), KEYS_REST_MS);
  };
  window.addEventListener('keydown', onKey, { signal });
  root.addEventListener('focusout', () => stop('end'), { signal });
  root.addEventListener('pointerdown', () => stop('end'), { signal });
  signal.addEventListener('abort', () => stop('cancel'));
}

function pickUp(event: PointerEvent, handlers: DragHandlers): Held | null {
  const movable = movableUnder(event.target);
  const drawing = event.target instanceof Element ? event.target.closest('svg.plan') : null;
  if (movable === null || !(drawing instanceof SVGSVGElement)) return null;
  const from = handlers.start(movable);
  const scale_px_m = pixelsAMetre(drawing);
  if (from === null || scale_px_m === null) return null;
  return {
    movable,
    from,
    x: event.clientX,
    y: event.clientY,
    scale_px_m,
    pointerId: event.pointerId,
    isMoving: false,
  };
}

/** The drawing's own scale, times how far it is scaled down to fit. */
function pixelsAMetre(drawing: SVGSVGElement): number | null {
  const scale = Number(drawing.dataset.scale);
  const shrunk = drawing.getScreenCTM()?.a ?? 1;
  return 0 < scale ? scale * shrunk : null;
}

function movableUnder(target: EventTarget | null): Movable | null {
  const holder = target instanceof Element ? target.closest('[data-move]') : null;
  return readMovable(holder?.getAttribute('data-move') ?? null);
}

function isSame(one: Movable, other: Movable): boolean {
  return one.list === other.list && one.id === other.id;
}

/** The click that ends a drag leads nowhere. */
function swallowClick(): void {
  const swallow = (event: Event): void => {
    event.preventDefault();
    event.stopPropagation();
  };
  window.addEventListener('click', swallow, { capture: true, once: true });
  setTimeout(() => window.removeEventListener('click', swallow, { capture: true }), 0);
}
