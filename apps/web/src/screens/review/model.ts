import type { AnimalRef, Diversity } from "@pollard/advice";
import type { Screens, Words } from "@pollard/words";

/** The herd's kinship in a few lines: over whom, whose genes, how inbred, how far back, how fast. */
export function kinSaid(s: Screens, words: Words, found: Diversity<AnimalRef>): readonly string[] {
  const [most] = found.ancestors;
  const size = found.effectiveSize;
  return [
    s.loci.kinOf(found.animals),
    s.loci.kinFounders(found.founders.length, found.effectiveFounders),
    ...(most === undefined ? [] : [s.loci.kinThrough(words.label(most.who), most.share)]),
    s.loci.kinInbred(found.meanInbreeding, found.meanKinship),
    s.loci.kinDepth(found.completeGenerations),
    size === undefined ? s.loci.kinSizeOpen : s.loci.kinSize(size),
  ];
}
