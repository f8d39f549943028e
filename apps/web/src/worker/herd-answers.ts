import {
  type AdviceProblem,
  animalLines,
  animalModel,
  type AnimalLine,
  type AnimalModel,
  type AnimalRef,
  animalRef,
  comparedKids,
  type ComparisonModel,
  headRecord,
  type HeadRecordModel,
  herdBook,
  type HerdBookLine,
  herdNameOf,
  herdProblems,
  kiddingDays,
  kidModel,
  type KidModel,
  litterOf,
  type LociModel,
  lociModel,
  lossesOf,
  type MisfitReasons,
  misfitReasons,
  nothingKept,
  regrowthRecord,
  type RegrowthModel,
  situationOf,
  type Situation,
  type Task,
  todayModel,
  type TodayModel,
  vetList,
  vetFiguresOf,
  type VetListModel,
} from "@pollard/advice";
import { type Day, err, ok, parseDay, present, type Result } from "@pollard/base";
import type { AnimalId } from "@pollard/genetics";
import { type VetWindow, windowOf } from "@pollard/husbandry";
import type { KidLosses } from "@pollard/planning";
import {
  type Correction,
  type Cursor,
  type Entry,
  type DeviceId,
  type EntryId,
  type Fact,
  type Folded,
  type Herd,
  type HerdId,
  type HistoryLine,
  isTooNew,
  type Ledger,
  openLedger,
  putTogether,
  receiveStamp,
  type Service,
  type Stamp,
  stampToFollow,
  type StoredEntry,
  type StoreFailure,
  timeOf,
  withSameAnimals,
  writeHerdFile,
} from "@pollard/records";
import { type HerdDatabase, herdDatabase } from "../adapters/database/herd-database.ts";
import { idbEntries } from "../adapters/database/idb-entries.ts";
import { nowUtc, today as clockToday } from "../adapters/clock.ts";
import { type Safety, safetyIn } from "./safety.ts";
import type { Places } from "./places.ts";
import { type ExchangeOutcome, exchangeWithHub, type HubPass } from "./hub-exchange.ts";
import { type VisitsModel, visitsIn } from "./visit-answers.ts";
import { type Entered, type EnteredAsked, enteredIn, historyOf, type LineOfAnimal } from "./entered.ts";
import { photoNames, photoRounds } from "./photo-round.ts";
import { type LaterAnswers, laterAnswers } from "./later-answers.ts";
import { type Replacement, replacementsNamed, type Standing, standingFact } from "./standing-fact.ts";

/** One goat's page. */
export interface AnimalPage {
  readonly model: AnimalModel;
  /** Newest first. */
  readonly history: readonly LineOfAnimal[];
  /** Pairs of records that a person said are this one animal. */
  readonly putTogether: ReturnType<typeof putTogether>;
}

/** What stands on the plan. */
export interface PlanModel {
  readonly due: readonly { readonly doe: AnimalRef; readonly from: Day; readonly likely: Day; readonly to: Day }[];
  /** Newest first. */
  readonly services: readonly {
    readonly service: Service;
    readonly doe: AnimalRef;
    readonly bucks: readonly AnimalRef[];
  }[];
}

/** The figures that advice is counted with: the vet's ages, and the keeper's losses. */
export interface SettingsModel {
  readonly windows: { readonly buck: VetWindow; readonly doe: VetWindow };
  readonly losses: KidLosses;
}

/** What does not fit, with what is needed to name it. */
export interface ProblemsModel {
  readonly problems: readonly AdviceProblem[];
  /** What may lie behind each problem that goes against how a trait is inherited. */
  readonly reasons: ReadonlyMap<AdviceProblem, MisfitReasons>;
  readonly refs: ReadonlyMap<AnimalId, AnimalRef>;
  readonly lines: ReadonlyMap<EntryId, HistoryLine>;
}

/**
 * Everything the screens ask of one herd, answered as plain data away from the page's thread.
 *
 * It reads the ledger and never writes to it; `catchUp` takes in what others have added since.
 */
export interface HerdAnswers extends LaterAnswers {
  /** `latest`: the stamp after which the next entry of `phone` comes; a thread that only reads names none. */
  open(herd: HerdId, phone?: DeviceId): Promise<Result<{ readonly latest: Stamp | undefined }, StoreFailure>>;
  shut(): Promise<void>;
  catchUp(): Promise<Result<{ readonly latest: Stamp | undefined }, StoreFailure>>;
  /** Hands over and takes in what is missing on either side; `base` is where the hub is. */
  exchange(base: string, pass: HubPass): Promise<ExchangeOutcome>;
  /** What a vet's phone was shown, and what was written on it. */
  visits(): Promise<Result<VisitsModel, StoreFailure>>;
  /** What each of these has to come after (rule RE-66). */
  stampsToFollow(facts: readonly (Fact | Correction)[]): readonly (Stamp | undefined)[];
  herdName(): string | undefined;
  /** How many entries have been read: it rises whenever something new was. */
  entryCount(): number;
  /** The last day, UTC, on which anything was written, by whichever clock. */
  lastWritten(): { readonly day: Day | undefined };
  safety(): Promise<Result<Safety, StoreFailure>>;
  /** The backup file's text: every entry, in order of arrival here; and how many they are. */
  backupText(): { readonly text: string; readonly entries: number };
  /** What is kept where, and what is nowhere but here. */
  places(): Promise<Result<Places, StoreFailure>>;
  ref(id: AnimalId): AnimalRef;
  /** Whether the herd has, or had, a goat that is meant by this. */
  isKnown(id: AnimalId): boolean;
  /** The kids of one kidding, those born alive and those born dead. */
  litter(kidding: string): { readonly alive: readonly AnimalRef[]; readonly dead: readonly AnimalRef[] };
  /** The goats that the newest entries speak of, each once. */
  recent(count: number): readonly AnimalId[];
  goats(today: Day): readonly AnimalLine[];
  /** Every animal of the record with its parents and what it carries, for the desk's tables and the drawn pedigree. */
  herdBook(today: Day): readonly HerdBookLine[];
  today(today: Day): TodayModel;
  animal(id: AnimalId, today: Day): AnimalPage | undefined;
  kid(id: AnimalId, today: Day): KidModel | undefined;
  vetList(day: Day, today: Day): VetListModel;
  /** How the calls came out, what the herd's own kids have taught, and what grew again after disbudding. */
  record(today: Day): { readonly heads: HeadRecordModel; readonly regrowth: RegrowthModel };
  /** Two kids side by side. */
  compare(one: AnimalId, other: AnimalId, today: Day): ComparisonModel | undefined;
  /** The litter that a kid was born in, itself among them. */
  mates(id: AnimalId): readonly AnimalRef[];
  plan(today: Day): PlanModel;
  problems(today: Day): ProblemsModel;
  settings(): SettingsModel;
  loci(breed?: string): LociModel;
  /** The fact that made a goat known, as it stands now. */
  origin(id: AnimalId): Standing | undefined;
  /** Corrections that say different things of one entry, for whoever is asked which is right. */
  rivals(ids: readonly EntryId[]): readonly Replacement[];
  /** Names of these entries for a list: what, when, by whom. */
  lines(entries: readonly EntryId[]): readonly HistoryLine[];
  /** Everything entered, narrowed. */
  entered(asked: EnteredAsked): Entered;
}

/** The same, asked from another thread: every answer is waited for. */
export type AskHerd = {
  readonly [K in keyof HerdAnswers]: (
    ...asked: Parameters<HerdAnswers[K]>
  ) => Promise<Awaited<ReturnType<HerdAnswers[K]>>>;
};

/** How many entries are read from the database at once. */
const PAGE = 2000;

/** The answers of whichever herd is opened. */
export function herdAnswers(): HerdAnswers {
  let db: HerdDatabase | undefined;
  let stored: readonly StoredEntry[] = [];
  let reached: Cursor = 0;
  let latest: Stamp | undefined;
  let written: Stamp | undefined;
  let own: DeviceId | undefined;
  let drift: string | undefined;
  let ledger: Ledger = openLedger(clockToday());
  let whole: { readonly of: Folded; readonly herd: Herd } | undefined;
  const kept = nothingKept();
  let photoRound = photoRounds();
  let known: Situation | undefined;
  let reading: Promise<unknown> = Promise.resolve();

  /**
   * A clock that is far ahead of ours is told of, and does not carry ours along. What this phone itself wrote is no other
   * clock's: where ours went back since, what it writes next still comes after.
   */
  function seeStamp({ at, by, device }: Pick<Entry, "at" | "by" | "device">): void {
    if (written === undefined || at > written) written = at;
    if (device === own) {
      if (latest === undefined || at > latest) latest = at;
      return;
    }
    const received = receiveStamp(latest, at, nowUtc());
    if (received.ok) latest = received.value;
    else drift = by;
  }

  async function takeIn(): Promise<Result<{ readonly latest: Stamp | undefined }, StoreFailure>> {
    const entries = idbEntries(present(db, "an open herd"));
    for (;;) {
      const page = await entries.read(reached, PAGE);
      if (!page.ok) return err(page.error);
      const last = page.value.at(-1);
      if (last === undefined) return ok({ latest });
      const fresh = page.value.map(({ entry }) => entry);
      reached = last.seq;
      stored = [...stored, ...page.value];
      ledger.add(fresh);
      known = undefined;
      for (const entry of fresh) if (!isTooNew(entry)) seeStamp(entry);
    }
  }

  /** Two tabs and a tap may ask at once: one reads after the other. */
  const inTurn = <T>(work: () => Promise<T>): Promise<T> => {
    const next = reading.then(work, work);
    reading = next;
    return next;
  };

  function situation(today: Day): Situation {
    if (ledger.today !== today) {
      ledger = openLedger(today);
      ledger.add(stored.map(({ entry }) => entry));
      known = undefined;
    }
    known ??= situationOf(ledger.folded(), today, kept);
    return known;
  }
  const entriesHere = () => stored.map(({ entry }) => entry);
  /** The herd as recorded, newborns that were entered twice put together. */
  const herd = (): Herd => {
    const told = ledger.folded();
    if (whole?.of !== told) whole = { of: told, herd: withSameAnimals(told).herd };
    return whole.herd;
  };
  const refOf = (id: AnimalId): AnimalRef => animalRef(herd(), id);

  return {
    open: (id, phone) =>
      inTurn(async () => {
        own = phone;
        await db?.close();
        db = herdDatabase(id);
        [stored, reached, latest, written, known] = [[], 0, undefined, undefined, undefined];
        photoRound = photoRounds();
        ledger = openLedger(clockToday());
        return takeIn();
      }),
    shut: () =>
      inTurn(async () => {
        await db?.close();
        db = undefined;
      }),
    catchUp: () => inTurn(takeIn),
    async exchange(base, pass) {
      const outcome = await exchangeWithHub(present(db, "an open herd"), base, pass);
      if (outcome.received > 0) await inTurn(takeIn);
      // A vet's phone is shown lists, and no pictures.
      if (outcome.state !== "done" || pass.role === "vet") return outcome;
      return {
        ...outcome,
        ...(await photoRound(present(db, "an open herd"), { base, pass, names: photoNames(herd()) })),
      };
    },
    visits: () => visitsIn(present(db, "an open herd"), stored),
    stampsToFollow: (facts) => facts.map((fact) => stampToFollow(entriesHere(), fact)),
    herdName: () => herdNameOf(herd()),
    lastWritten: () => ({ day: written === undefined ? undefined : parseDay(timeOf(written).slice(0, 10)) }),
    safety: () => safetyIn(present(db, "an open herd"), stored, drift),
    backupText() {
      const id = db?.herd;
      const text = writeHerdFile(entriesHere(), { ...(id === undefined ? {} : { herd: id }), written: nowUtc() });
      return { text, entries: stored.length };
    },
    async places() {
      const { placesIn } = await import("./places.ts");
      return placesIn(present(db, "an open herd"), stored, herd());
    },
    entryCount: () => stored.length,
    ref: refOf,
    isKnown: (id) => herd().animals.has(id),
    litter: (kidding) => {
      const kids = herd().kiddings.find((each) => each.entry === kidding)?.kids ?? [];
      const isDead = (kid: AnimalId): boolean => herd().animals.get(kid)?.bornAs === "dead";
      return { alive: kids.filter((kid) => !isDead(kid)).map(refOf), dead: kids.filter(isDead).map(refOf) };
    },
    recent(count) {
      const found = new Set<AnimalId>();
      for (const line of herd().history) {
        for (const animal of line.animals) found.add(animal);
        if (found.size >= count) break;
      }
      return [...found].slice(0, count);
    },
    goats(today) {
      const now = situation(today);
      const tasks = todayModel(now).tasks;
      // A head that is still open is told on its own page alone: nobody's eyes are led, by the pedigree or by another reader
      // (rules UI-7, UI-81).
      const open = new Set(now.openHeads().map(({ animal }) => animal.id));
      return animalLines(now).map((line) => ({
        ...line,
        head: open.has(line.ref.id) ? "unknown" : line.head,
        urgency: tasks.find(({ task }) => goatOf(task) === line.ref.id)?.urgency,
      }));
    },
    herdBook: (today) => herdBook(situation(today)),
    today: (today) => todayModel(situation(today)),
    animal(id, today) {
      const model = animalModel(situation(today), id);
      return (
        model && {
          model,
          history: historyOf(herd(), id),
          putTogether: putTogether(herd(), id),
        }
      );
    },
    kid: (id, today) => kidModel(situation(today), id),
    record: (today) => ({ heads: headRecord(situation(today)), regrowth: regrowthRecord(situation(today)) }),
    compare: (one, other, today) => comparedKids(situation(today), one, other),
    mates: (id) => litterOf(herd(), id),
    vetList: (day, today) => vetList(situation(today), day),
    plan(today) {
      const seen = situation(today).herd;
      const { animals, services } = seen;
      const due = [...animals.values()].flatMap((doe) => {
        const days = doe.departure === undefined ? kiddingDays(seen, doe.id) : undefined;
        return days === undefined || days.to < today ? [] : [{ doe: refOf(doe.id), ...days }];
      });
      return {
        due: due.toSorted((a, b) => (a.likely < b.likely ? -1 : 1)),
        services: services
          .toReversed()
          .slice(0, SERVICES_SHOWN)
          .map((service) => ({ service, doe: refOf(service.doe), bucks: service.bucks.map(refOf) })),
      };
    },
    problems(today) {
      const now = situation(today);
      const problems = herdProblems(now);
      const { animals, history } = herd();
      return {
        problems,
        reasons: new Map(
          problems
            .filter((p) => p.code === "cannot-be" || p.code === "hard-to-believe")
            .map((p) => [p, misfitReasons(now, p)]),
        ),
        refs: new Map([...animals.keys()].map((id) => [id, refOf(id)])),
        lines: new Map(history.map((line) => [line.entry, line])),
      };
    },
    settings() {
      const figures = vetFiguresOf(herd());
      return {
        windows: { buck: windowOf("buck", figures), doe: windowOf("doe", figures) },
        losses: lossesOf(herd()),
      };
    },
    loci: (breed) => lociModel(herd(), breed),
    origin(id) {
      const entry = herd().animals.get(id)?.entry;
      return entry === undefined ? undefined : standingFact(entriesHere(), entry);
    },
    rivals: (ids) => replacementsNamed(entriesHere(), ids),
    lines: (entries) => herd().history.filter((line) => entries.includes(line.entry)),
    entered: (asked) => enteredIn(herd(), stored, asked),
    ...laterAnswers(herd, situation, () => present(db, "an open herd").herd),
  };
}

/** The one goat that a task is about, if it is about one. */
function goatOf(task: Task): AnimalId | undefined {
  if ("kid" in task) return task.kid.id;
  if ("doe" in task) return task.doe.id;
  return "animal" in task ? task.animal.id : undefined;
}

/** How many matings the plan lists: a season of a middling herd. */
const SERVICES_SHOWN = 60;
