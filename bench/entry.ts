import { day } from "@pollard/base";
import { nothingKept, type Situation, situationOf, todayModel } from "@pollard/advice";
import { fold, openLedger } from "@pollard/records";
import { tenYears } from "./herds/ten-years.ts";
import { median, type Timed, timed } from "./measuring/times.ts";

/** What one entry more costs from the ledger to the day's list, beside working everything out anew: a herd of ten years. */
const TODAY = day("2026-11-25");
/** Entries of which the middle time is told; some before them warm up. */
const ENTRIES = 60;
const WARMING_UP = 15;
/** Herds worked out from nothing. */
const AFRESH = 12;

export function bench() {
  const entries = tenYears(TODAY);
  const ledger = openLedger(TODAY);
  ledger.add(entries.slice(0, -ENTRIES));
  const kept = nothingKept();
  todayModel(situationOf(ledger.folded(), TODAY, kept));
  const again = entries.slice(-ENTRIES).map((entry) => {
    const folded = timed(() => (ledger.add([entry]), ledger.folded()));
    return asked(folded, (answer) => situationOf(answer, TODAY, kept));
  });
  const whole = Array.from({ length: AFRESH }, () =>
    asked(
      timed(() => fold(entries, TODAY)),
      (answer) => situationOf(answer, TODAY),
    ),
  );
  const animals = ledger.folded().herd.animals.size;
  const steps = ["folded", "believed", "everyone", "today", "together"] as const;
  const said = {
    folded: "the records folded",
    believed: "who is believed to carry what, worked out",
    everyone: "every animal asked",
    today: "the day's list",
    together: "all of it",
  };
  return steps.map((step) => {
    const [one, all] = [median(again.slice(WARMING_UP).map((t) => t[step])), median(whole.map((t) => t[step]))];
    const note = `${entries.length} entries, ${animals} animals; everything anew ${all.toFixed(1)} ms: ${(all / one).toFixed(1)} times as long`;
    return { what: `after one entry more: ${said[step]}`, value: one, unit: "ms", note };
  });
}

type Answered = ReturnType<typeof fold>;

function asked(folded: Timed<Answered>, situationFrom: (folded: Answered) => Situation) {
  const situation = timed(() => situationFrom(folded.value));
  const everyone = timed(() => {
    for (const id of situation.value.herd.animals.keys()) situation.value.beliefs.polled(id);
  });
  const today = timed(() => todayModel(situation.value));
  const together = folded.ms + situation.ms + everyone.ms + today.ms;
  return { folded: folded.ms, believed: situation.ms, everyone: everyone.ms, today: today.ms, together };
}
