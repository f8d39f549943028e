/** What is made of an object once: asked again with the very same object, the very same is given. Kept as long as the object. */
export function oncePer<K extends object, V extends object>(make: (key: K) => V): (key: K) => V {
  const made = new WeakMap<K, V>();
  return (key) => {
    const known = made.get(key) ?? make(key);
    made.set(key, known);
    return known;
  };
}
