/** What was asked for lately, by a name: of more than so many the one not asked for longest is forgotten. */
export class Lately<T> {
  readonly #most: number;
  readonly #known = new Map<string, T>();

  constructor(most: number) {
    this.#most = most;
  }

  /** What is known by a name, made from what was known before; that is what the name stands for from now on. */
  ask(name: string, make: (before: T | undefined) => T): T {
    const made = make(this.#known.get(name));
    this.#known.delete(name);
    this.#known.set(name, made);
    const oldest = this.#known.size > this.#most ? this.#known.keys().next().value : undefined;
    if (oldest !== undefined) this.#known.delete(oldest);
    return made;
  }
}
