// Counts and reports the steps of a real-editor test; a step that fails does not keep the next from being tried.

export class Steps {
  #passed = 0;
  #failed = 0;
  readonly #start = performance.now();

  async step(name: string, act: () => Promise<unknown>): Promise<boolean> {
    try {
      const told = await act();
      this.#passed++;
      console.log(`  ok   ${this.#at()}  ${name}${typeof told === 'string' ? `: ${told}` : ''}`);
      return true;
    } catch (error) {
      this.#failed++;
      const message = error instanceof Error ? error.message : String(error);
      console.log(
        `  FAIL ${this.#at()}  ${name}\n       ${message.split('\n').slice(0, 12).join('\n       ')}`,
      );
      return false;
    }
  }

  get failed(): number {
    return this.#failed;
  }

  /** The line that is counted. */
  summary(): string {
    return `${this.#passed} passed, ${this.#failed} failed`;
  }

  #at(): string {
    return `${((performance.now() - this.#start) / 1000).toFixed(1).padStart(6)} s`;
  }
}
