import { Link } from "wouter";
import { useScreens, words } from "../../house/use-house.tsx";
import type { Family, FamilySymbol, Parent } from "./family.ts";
import type { PedigreeLayout } from "./layout.ts";
import { listed, roman } from "./model.ts";
import { symbolSaid } from "./said.ts";

/** The same facts as the drawing, as a nested list: generation, mating, kids. */
export function PedigreeList({ family, layout }: { readonly family: Family; readonly layout: PedigreeLayout }) {
  const s = useScreens();
  const nameOf = ({ symbol, counted }: Parent): string => {
    const of = family.symbols.get(symbol);
    const [line] = of?.lines ?? [];
    const name =
      line === undefined ? (of?.sex === "doe" ? s.pedigree.unknownDam : s.pedigree.unknownSire) : words.label(line.ref);
    return counted === undefined ? name : `${name} (${words.counted(counted)})`;
  };
  return (
    <ul className="pedigree-list">
      {listed(family, layout).map(({ row, founders, matings }) => (
        <li key={row}>
          <b>{s.pedigree.generation(roman(row))}</b>
          <ul>
            {founders.length > 0 && (
              <li>
                {s.pedigree.noParents}
                <ul>
                  {founders.map((symbol) => (
                    <Listed key={symbol.id} symbol={symbol} />
                  ))}
                </ul>
              </li>
            )}
            {matings.map(({ mating, kids }) => (
              <li key={mating.key}>
                {mating.sires.map(nameOf).join(", ")} × {nameOf(mating.dam)}
                {mating.related === "related" && ` – ${s.pedigree.related}`}
                <ul>
                  {kids.map((symbol) => (
                    <Listed key={symbol.id} symbol={symbol} />
                  ))}
                </ul>
              </li>
            ))}
          </ul>
        </li>
      ))}
    </ul>
  );
}

function Listed({ symbol }: { readonly symbol: FamilySymbol }) {
  const s = useScreens();
  const said = symbolSaid(s, symbol);
  const [line] = symbol.lines;
  return (
    <li>
      {symbol.kind === "animal" && line !== undefined ? <Link href={`/pedigree/${line.ref.id}`}>{said}</Link> : said}
    </li>
  );
}
