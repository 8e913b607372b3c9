/** What a pointer in a drawing can do. */
interface Pointed {
  placeAt: (clientX: number) => number;
  point: (place: number) => void;
  select: (from: number | null, to: number) => void;
  zoom: (from: number, to: number) => void;
}

/** A mouse that moved less than this between press and release has not dragged, in pixels. */
const leastDrag = 6;

/** The cursor follows a mouse that moves and a finger that is held; a mouse that is dragged chooses a part of the axis. */
export function followPointer(drawing: HTMLElement, { placeAt, point, select, zoom }: Pointed): void {
  let pressedX: number | null = null;
  const isDrag = (clientX: number) => pressedX !== null && Math.abs(clientX - pressedX) >= leastDrag;
  drawing.addEventListener('pointerdown', ({ pointerType, button, clientX, pointerId }) => {
    point(placeAt(clientX));
    if (pointerType === 'touch' || button !== 0) return;
    pressedX = clientX;
    drawing.setPointerCapture(pointerId);
  });
  drawing.addEventListener('pointermove', ({ clientX }) => {
    if (pressedX !== null && isDrag(clientX)) select(placeAt(pressedX), placeAt(clientX));
    else point(placeAt(clientX));
  });
  drawing.addEventListener('pointerup', ({ clientX }) => {
    const from = pressedX;
    const dragged = isDrag(clientX);
    pressedX = null;
    select(null, 0);
    if (from !== null && dragged) zoom(placeAt(from), placeAt(clientX));
  });
  drawing.addEventListener('pointercancel', () => {
    pressedX = null;
    select(null, 0);
  });
}
