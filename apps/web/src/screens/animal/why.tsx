import { animalId, POLLED } from "@pollard/genetics";
import { useState } from "react";
import { loci, useAsked, useScreens, useToday, words } from "../../house/use-house.tsx";
import { Told } from "../../parts/frame/told.tsx";
import { carriedSaid, whySaid } from "./model.ts";

/** "Why?": what the likeliest genotype rests on, worked out when it is asked for. */
export function Why(props: { readonly id: string; readonly locus?: string; readonly name: string }) {
  const s = useScreens();
  const [open, setOpen] = useState<"shut" | "open">("shut");
  return (
    <details className="why" onToggle={(event) => setOpen(event.currentTarget.open ? "open" : "shut")}>
      <summary aria-label={s.loci.whyOf(props.name)}>{s.loci.why}</summary>
      {open === "open" && <WhyLines id={props.id} locus={props.locus ?? POLLED.id} />}
    </details>
  );
}

function WhyLines({ id, locus }: { readonly id: string; readonly locus: string }) {
  const s = useScreens();
  const today = useToday();
  const asked = useAsked((answers) => answers.why(animalId(id), locus, today), [id, locus, today]);
  if (asked.value === undefined) return <Told>{asked.working ? s.frame.working : s.frame.noSuchAnimal}</Told>;
  return (
    <ul className="plain-lines">
      {whySaid(s, { words, loci }, asked.value).map((line) => (
        <li key={line}>{line}</li>
      ))}
    </ul>
  );
}

/** What a goat most likely carries at the other loci that the herd follows, each with its "Why?". */
export function OtherTraits({ id }: { readonly id: string }) {
  const s = useScreens();
  const today = useToday();
  const lines = useAsked((answers) => answers.carried(animalId(id), today), [id, today]).value ?? [];
  if (lines.length === 0) return null;
  return (
    <section className="part">
      <h2>{s.loci.others}</h2>
      {lines.map((line) => (
        <div key={line.locus.id}>
          <h3>{loci.name(line.locus)}</h3>
          <p>{carriedSaid(s, words, line)}</p>
          <Why id={id} locus={line.locus.id} name={loci.name(line.locus)} />
        </div>
      ))}
    </section>
  );
}
