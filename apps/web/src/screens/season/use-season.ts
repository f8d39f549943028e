import type { Day } from "@pollard/base";
import { useState } from "react";
import { useAsked } from "../../house/use-house.tsx";
import type { SeasonModel } from "../../worker/season-answers.ts";

/** The season with the days that are tried out; while other days are worked out, the last answer stays. */
export function useSeason(today: Day, tried: readonly Day[]): SeasonModel | undefined {
  const { value } = useAsked((answers) => answers.season(today, { pin: tried }), [today, tried]);
  const [last, setLast] = useState<SeasonModel>();
  if (value !== undefined && value !== last) setLast(value);
  return value ?? last;
}
