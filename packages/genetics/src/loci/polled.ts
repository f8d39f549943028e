import type { Sourced } from "@pollard/base";
import type { Locus } from "../locus.ts";
import { byCopies } from "./trait.ts";

/** Frequencies of [P, p] from that of the horned allele. */
const horned = (q: number, source: string, checked: Sourced<never>["checked"]): Sourced<readonly number[]> => ({
  value: [1 - q, q],
  source,
  checked,
});

/** Mean of the frequencies printed for males and for females kept for breeding, births of 1979. */
const ricordeau = (q: number) => horned(q, "ricordeau-sanchez1981", "read-in-source");

const POLLED_ALLELES = { alleles: ["P", "p"], inheritance: "autosomal" } as const;
const HEADS = ["polled", "horned"] as const;

/**
 * Horned or polled: `P` (polled; the same change that turns PP animals with XX chromosomes intersex) over `p` (horned).
 *
 * Assumes: Hardy-Weinberg among founders. The French animals were selected breeding stock, so this is a starting point
 *          for untested animals, not a census; a herd's own figure is better.
 * Source:  OMIA 000483; [ricordeau-sanchez1981] for Alpine, Saanen, Poitevine and crossbreds; [ibnelbachyr-draa] for
 *          Draa (46.1 % horned of 783, so q = square root of 0.461). Default: our judgement, near the French mean.
 */
export const POLLED: Locus = {
  ...POLLED_ALLELES,
  id: "polled",
  name: "Polled or horned",
  omia: "OMIA:000483-9925",
  founders: {
    default: horned(0.8, "judgement", "judgement"),
    breeds: {
      alpine: ricordeau(0.885),
      "french alpine": ricordeau(0.885),
      "alpine chamoisee": ricordeau(0.885),
      chamoisee: ricordeau(0.885),
      saanen: ricordeau(0.775),
      poitevine: ricordeau(0.785),
      crossbred: ricordeau(0.825),
      draa: horned(Math.sqrt(0.461), "ibnelbachyr-draa", "read-in-source"),
    },
  },
  traits: [
    {
      id: "head",
      standing: "established",
      phenotypes: HEADS,
      expression: {
        value: byCopies(POLLED_ALLELES, "P", HEADS, ["horned", "polled", "polled"]),
        source: "ricordeau1967",
        checked: "read-in-source",
      },
    },
  ],
};
