/**
 * A click, guarded: a glove that bounces, a wet glass or two quick taps count once. The browser's click already asks for
 * a pointer that goes down and up inside the target, and gives keyboard and screen reader the same way in.
 */
import { isRepeat, type Tap } from './repeat.ts';

let last: Tap | null = null;
let lastTarget: EventTarget | null = null;

export function press(act: (event: MouseEvent) => void): (event: MouseEvent) => void {
  return (event) => {
    const byPointer = event.detail > 0;
    const tap: Tap = { at: event.timeStamp, x: event.clientX, y: event.clientY, byPointer };
    if (isRepeat(last, tap, lastTarget === event.currentTarget)) return;
    last = tap;
    lastTarget = event.currentTarget;
    act(event);
  };
}
