// A question to the shell whose answer follows what is typed: after a pause, and only the latest answer counts.

/** @template A what the shell answers */
export class LatestRequest {
  /** @type {ReturnType<typeof setTimeout> | undefined} */
  #timer;
  /** Ends the request that is under way. @type {AbortController | null} */
  #current = null;

  /**
   * @param {object} options
   * @param {(current: AbortSignal) => Promise<A>} options.ask its signal is aborted when a later request takes its place
   * @param {(answer: A) => void} options.show
   * @param {(refusal: unknown) => void} [options.fail] without it a refusal is passed over
   * @param {number} [options.pause] milliseconds without a change before `later` asks
   * @param {AbortSignal} options.signal ends with the screen
   */
  constructor({ ask, show, fail = () => {}, pause = 250, signal }) {
    this.ask = ask;
    this.show = show;
    this.fail = fail;
    this.pause = pause;
    this.signal = signal;
    signal.addEventListener("abort", () => this.cancel());
  }

  /** Asks after a pause that begins anew with every call. */
  later() {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => this.now(), this.pause);
  }

  /** Asks at once; resolves when the answer is shown, refused, or no longer wanted. */
  async now() {
    this.cancel();
    if (this.signal.aborted) return;
    const current = new AbortController();
    this.#current = current;
    try {
      const answer = await this.ask(current.signal);
      if (!current.signal.aborted) this.show(answer);
    } catch (refusal) {
      if (!current.signal.aborted) this.fail(refusal);
    }
  }

  /** Shows no answer to a request that was made or is waiting. */
  cancel() {
    clearTimeout(this.#timer);
    this.#current?.abort();
    this.#current = null;
  }
}
