import { care } from "./care.ts";
import { english } from "./english.ts";
import { loci } from "./loci.ts";
import { screens } from "./screens.ts";
import { weights } from "./weights.ts";

/** What the first screens say in English; the rest (`englishLater`) may come after them. */
export const englishFirst = { language: "en", words: english, weights, screens, care, loci } as const;
