/** Work done a little at each step, so that whoever waits for it can stop in between. */
export type Steps<T> = Generator<void, T>;

/** Works through all steps at once. */
export function finished<T>(steps: Steps<T>): T {
  for (;;) {
    const { done, value } = steps.next();
    if (done) return value;
  }
}
