/**
 * A part of `items` that does not hold while every smaller part of it does.
 *
 * Cost:   about 2k log(n/k) + 2k questions for a part of k among n.
 * Source: [junker2004].
 */
export function irreducible<T>(items: readonly T[], holds: (part: readonly T[]) => boolean): readonly T[] {
  const search = (background: readonly T[], grown: readonly T[], rest: readonly T[]): readonly T[] => {
    if (grown.length > 0 && !holds(background)) return [];
    if (rest.length <= 1) return rest;
    const half = Math.ceil(rest.length / 2);
    const [first, second] = [rest.slice(0, half), rest.slice(half)];
    const inSecond = search([...background, ...first], first, second);
    const inFirst = search([...background, ...inSecond], inSecond, first);
    return [...inFirst, ...inSecond];
  };
  return search([], [], items);
}

/** Ways of leaving items out that are looked at before an irreducible part is taken for small enough. */
const MOST_WAYS = 40;

/**
 * A part of `items` that does not hold and is as small as any that does not.
 *
 * A part that does not hold has something in common with every way of leaving items out so that the rest holds. So the
 * smallest choice that meets all ways seen so far is asked: if it holds, it leads to one way more, else it is the answer.
 * An irreducible part, found first, says how large the answer is at most.
 *
 * Shape:   after forty ways without an end it is the irreducible part, which may be larger than the smallest.
 * Assumes: all items together do not hold; a part of what holds, holds; fewer than `fewest` items hold in any case.
 * Cost:    that of an irreducible part; beyond `fewest` items a few times that, where contradictions are few.
 * Source:  [reiter1987] (choices that meet every set).
 */
export function smallest<T>(items: readonly T[], holds: (part: readonly T[]) => boolean, fewest = 1): readonly T[] {
  const known = irreducible(items, holds);
  if (known.length <= fewest) return known;
  const ways: ReadonlySet<T>[] = [];
  for (let way = 0; way < MOST_WAYS; way++) {
    const choice = leastMeeting(items, ways, known.length - 1);
    if (choice === undefined) return known;
    if (!holds(choice)) return choice;
    const kept = new Set(grown(choice, items, holds));
    ways.push(new Set(items.filter((x) => !kept.has(x))));
  }
  return known;
}

/** The fewest items of which at least one is in each set, in the order of `items`; nothing beyond `most`. */
function leastMeeting<T>(items: readonly T[], sets: readonly ReadonlySet<T>[], most: number): readonly T[] | undefined {
  const extended = (choice: readonly T[], length: number): readonly T[] | undefined => {
    const open = sets.find((set) => !choice.some((x) => set.has(x)));
    if (open === undefined) return choice;
    if (choice.length === length) return undefined;
    for (const x of open) {
      const found = extended([...choice, x], length);
      if (found) return found;
    }
    return undefined;
  };
  for (let length = 0; length <= most; length++) {
    const found = extended([], length);
    if (found) return items.filter((x) => found.includes(x));
  }
  return undefined;
}

/** What holds along with a part that holds: as much of `items` as can be added, halves at a time. */
function grown<T>(part: readonly T[], items: readonly T[], holds: (part: readonly T[]) => boolean): readonly T[] {
  let kept = part;
  const add = (more: readonly T[]): void => {
    if (more.length === 0) return;
    if (holds([...kept, ...more])) kept = [...kept, ...more];
    else if (more.length > 1) {
      const half = Math.ceil(more.length / 2);
      add(more.slice(0, half));
      add(more.slice(half));
    }
  };
  add(items.filter((x) => !part.includes(x)));
  return kept;
}
