/** Calls through at most ten times a second: a message a row would keep the page busy with nothing else. */
export function seldom<Value>(call: (value: Value) => void, milliseconds = 100): (value: Value) => void {
  let last = -Infinity;
  return (value) => {
    const now = performance.now();
    if (now - last < milliseconds) return;
    last = now;
    call(value);
  };
}
