import { type Catalogue, englishLater } from "@pollard/words";
import { onSpeak } from "./wording.ts";

/* Words that the first screens do without, so that they are fetched with the screens that need them. Bound as in wording.ts. */
export let season: Catalogue["season"] = englishLater.season;
export let sheets: Catalogue["sheets"] = englishLater.sheets;
export let pairings: Catalogue["pairings"] = englishLater.pairings;
export let forecasts: Catalogue["forecasts"] = englishLater.forecasts;
export let reviews: Catalogue["reviews"] = englishLater.reviews;
export let help: Catalogue["help"] = englishLater.help;

onSpeak((fetched) => {
  ({ season, sheets, pairings, forecasts, reviews, help } = fetched ?? englishLater);
});
