import { useAsked, useScreens, useToday, words } from "../../house/use-house.tsx";
import { kinSaid } from "./model.ts";

/** How kin the herd's young are, and through whom their genes came. */
export function Kin() {
  const s = useScreens();
  const today = useToday();
  const found = useAsked((answers) => answers.diversity(today), [today]).value;
  if (found === undefined) return null;
  return (
    <section className="part">
      <h2>{s.loci.kin}</h2>
      <ul className="plain-lines">
        {kinSaid(s, words, found).map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </section>
  );
}
