import { useId } from "react";
import { useScreens } from "../../house/use-house.tsx";
import { type Sample, Symbol, SymbolDefs } from "./symbol.tsx";

const KNOWN = (genotype: "PP" | "Pp" | "pp"): Sample => ({ sex: "doe", fill: { way: "known", genotype } });
const BLANK = { way: "none" } as const;

const SAMPLES = {
  buck: { sex: "buck", fill: BLANK },
  doe: { sex: "doe", fill: BLANK },
  unsure: { sex: "unsure", fill: BLANK },
  intersex: { sex: "intersex", fill: BLANK },
  wether: { sex: "wether", fill: BLANK },
  PP: KNOWN("PP"),
  Pp: KNOWN("Pp"),
  pp: KNOWN("pp"),
  inferred: { sex: "doe", fill: { way: "inferred", pp: 0.3, Pp: 0.4 } },
  inferredPp: { sex: "doe", fill: { way: "inferred", pp: 0, Pp: 1 } },
  inferredpp: { sex: "doe", fill: { way: "inferred", pp: 1, Pp: 0 } },
  notShown: { sex: "doe", fill: { way: "not-shown" } },
  dead: { sex: "doe", fill: BLANK, where: "dead" },
  many: { sex: "buck", fill: BLANK, many: 5 },
  unknown: { sex: "buck", fill: BLANK, unknown: "unknown" },
  lost: { sex: "unsure", fill: BLANK, lost: "lost" },
} as const satisfies Readonly<Record<string, Sample>>;

/** What every symbol and line means; printed with the drawing. */
export function PedigreeKey() {
  const s = useScreens();
  const defs = useId();
  return (
    <section className="part pedigree-key-part">
      <h2>{s.pedigree.key}</h2>
      <p className="quiet">{s.pedigree.keyFrom}</p>
      <svg width="0" height="0" className="unseen" aria-hidden="true" focusable="false">
        <SymbolDefs id={defs} />
      </svg>
      <ul className="pedigree-key">
        {(Object.keys(SAMPLES) as (keyof typeof SAMPLES)[]).map((of) => (
          <li key={of}>
            <svg viewBox="-30 -30 60 60" width="40" height="40" aria-hidden="true" focusable="false">
              <Symbol of={SAMPLES[of]} id={defs} />
            </svg>
            {s.pedigree.keyOf[of]}
          </li>
        ))}
        <li>
          <b className="pedigree-sign">{s.pedigree.stillborn}</b>
          {s.pedigree.keyOf.stillborn}
        </li>
        <li>
          <svg viewBox="0 0 60 60" width="40" height="40" aria-hidden="true" focusable="false" className="pedigree">
            <path className="stroke plain" d="M28 4 V22 M10 22 H46 M10 22 V40 M46 22 V40" />
            <text className="years" x={31} y={16}>
              27
            </text>
          </svg>
          {s.pedigree.keyOf.litter}
        </li>
        {(["arrow", "related", "possible"] as const).map((of) => (
          <li key={of}>
            <svg viewBox="0 0 60 60" width="40" height="40" aria-hidden="true" focusable="false" className="pedigree">
              {of === "arrow" && <path className="arrow" d="M12 48 L44 16 M44 16 h-14 M44 16 v14" />}
              {of === "related" && <path className="stroke plain" d="M4 25 H56 M4 35 H56" />}
              {of === "possible" && <path className="stroke possible" d="M4 30 H56" />}
            </svg>
            {s.pedigree.keyOf[of]}
          </li>
        ))}
      </ul>
    </section>
  );
}
