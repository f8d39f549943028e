import { addDays, type Day } from "@pollard/base";
import { animalId } from "@pollard/genetics";
import { useEffect, useState } from "react";
import { timeOfDay } from "../../adapters/clock.ts";
import { PlusIcon } from "../../drawings/icons.tsx";
import { SexMark } from "../../drawings/marks.tsx";
import { care, useAsked, useGround, useScreens, useToday, weightsIn, words } from "../../house/use-house.tsx";
import { goTo, leaveJob } from "../../parts/frame/address.ts";
import { Answers } from "../../parts/answers/answers.tsx";
import { EnteredDay } from "../../parts/answers/entered-day.tsx";
import { Frame } from "../../parts/frame/frame.tsx";
import { Named } from "../../parts/lists/lines.tsx";
import { SavedLine, type Saving } from "../../parts/keeping/saved-line.tsx";
import { TextField } from "../../parts/answers/text-field.tsx";
import { Told } from "../../parts/frame/told.tsx";
import { readWeight, type TypedWeight } from "../../parts/answers/typed-weight.ts";
import { useDraft } from "../../parts/keeping/use-draft.ts";
import { WeightField } from "../../parts/answers/weight-field.tsx";
import {
  addKid,
  answerKid,
  firstKidding,
  type KiddingDraft,
  kiddingFact,
  maybeYesterday,
  readKidding,
  toggleKid,
  weightTyped,
} from "./model.ts";
import { capital } from "../../parts/capital.ts";

/** One kidding, one grouped page a newborn; every tap is on disk before the page says so. */
export function KiddingScreen({ dam, step }: { readonly dam: string; readonly step: string | undefined }) {
  const s = useScreens();
  const { house } = useGround();
  const today = useToday();
  const asked = useAsked((answers) => answers.ref(animalId(dam)), [dam]);
  const draft = useDraft("kidding", dam, () => firstKidding(today, timeOfDay(), animalId(house.newId())), readKidding);
  const name = asked.value === undefined ? "" : words.label(asked.value);
  const { answers } = draft;
  if (answers === undefined || asked.value === undefined)
    return (
      <Frame heading={s.kidding.title} title={s.kidding.title} back="/" capture="capture">
        {draft.saving.state === "failed" && <SavedLine saving={draft.saving} />}
      </Frame>
    );
  if (step === undefined) return <Begin dam={dam} left={draft.step} />;
  const common: Common = { dam, name, answers, draft, today };
  const at = Math.min(Number(step) || 0, answers.kids.length - 1);
  return step === "check" ? <Check {...common} /> : <Newborn {...common} at={at} key={at} />;
}

interface Common {
  readonly dam: string;
  readonly name: string;
  readonly answers: KiddingDraft;
  readonly draft: ReturnType<typeof useDraft<KiddingDraft>>;
  readonly today: Day;
}

/** Opens the kid that was left, or the first; it stands in the history in place of the way in. */
function Begin({ dam, left }: { readonly dam: string; readonly left: string }) {
  useEffect(() => goTo(`/kidding/${dam}/${left || "0"}`, { replace: true }), [dam, left]);
  return null;
}

/** One step on: the answers and the place are on disk, and Back leads here again. */
function stepTo(to: string, { draft, dam }: Common, answers: KiddingDraft): void {
  draft.keep(answers, to);
  goTo(`/kidding/${dam}/${to}`, { within: "job" });
}

function Newborn(props: Common & { readonly at: number }) {
  const { name, answers, draft, at } = props;
  const s = useScreens();
  const { house, unit } = useGround();
  const kid = answers.kids[at];
  const weight = weightTyped(kid, unit);
  const [more, setMore] = useState(kid?.mark !== undefined || kid?.tag !== undefined || kid?.weightText !== undefined);
  const say = (answer: Parameters<typeof answerKid>[2]): void => draft.keep(answerKid(answers, at, answer), String(at));
  return (
    <Frame
      heading={s.kidding.of(name)}
      title={s.kidding.of(name)}
      back="/"
      capture="capture"
      dock={
        <>
          <SavedLine saving={draft.saving} />
          <div className="two">
            <button
              type="button"
              className="press"
              onClick={() => stepTo(String(answers.kids.length), props, addKid(answers, animalId(house.newId())))}
            >
              <PlusIcon />
              {s.kidding.another}
            </button>
            <button type="button" className="press main" onClick={() => stepTo("check", props, answers)}>
              {s.kidding.check}
            </button>
          </div>
        </>
      }
    >
      <h1>{s.kidding.kid(at + 1)}</h1>
      <Answers
        name="sex"
        legend={s.kidding.sex}
        value={kid?.sex}
        onAnswer={(sex) => say({ sex })}
        choices={(["doe", "buck", "unsure", "intersex"] as const).map((sex) => ({
          value: sex,
          label: s.kidding.sexes[sex],
          drawing: <SexMark sex={sex} />,
          ...(sex === "unsure" ? { weight: "faint" as const } : {}),
        }))}
      />
      <Answers
        name="born"
        legend={s.kidding.alive}
        value={kid?.born}
        onAnswer={(born) => say({ born })}
        choices={(["alive", "dead"] as const).map((born) => ({ value: born, label: s.kidding.born[born] }))}
      />
      <details className="why" open={more} onToggle={(event) => setMore(event.currentTarget.open)}>
        <summary>
          {s.kidding.more} {s.frame.optional}
        </summary>
        <div className="stack">
          <WeightField
            typed={weight}
            hint={s.kidding.weightHint[weight.unit]}
            onText={(weightText) => say({ weightText, weightUnit: weight.unit })}
          />
          <TextField
            label={s.kidding.mark}
            hint={s.kidding.markHint}
            value={kid?.mark ?? ""}
            onText={(mark) => say({ mark })}
          />
          <TextField label={s.kidding.tag} value={kid?.tag ?? ""} onText={(tag) => say({ tag })} />
        </div>
      </details>
      <p className="quiet">{s.kidding.callVet}</p>
    </Frame>
  );
}

function Check(props: Common) {
  const { dam, name, answers, draft, today } = props;
  const s = useScreens();
  const { house, unit } = useGround();
  const [finishing, setFinishing] = useState<Saving>({ state: "nothing" });
  const finish = async (): Promise<void> => {
    if (finishing.state === "saving") return;
    setFinishing({ state: "saving" });
    await draft.settled();
    const kept = await house.record([{ id: draft.entry, fact: kiddingFact(answers, animalId(dam)) }], {
      draft: draft.key,
    });
    if (kept.ok) leaveJob(`/litter/${draft.entry}`);
    else setFinishing({ state: "failed", why: kept.error.code, retry: () => void finish() });
  };
  return (
    <Frame
      heading={s.kidding.checkTitle}
      title={s.kidding.of(name)}
      back="/"
      capture="capture"
      dock={
        <>
          <SavedLine saving={finishing.state === "nothing" ? draft.saving : finishing} />
          <button type="button" className="press main" onClick={() => void finish()}>
            {s.kidding.finish}
          </button>
        </>
      }
    >
      <h1>{s.kidding.checkTitle}</h1>
      <section className="card">
        <EnteredDay
          name={s.kidding.day}
          value={answers}
          today={today}
          onDay={(when) => draft.keep({ ...answers, ...when }, "check")}
        >
          {maybeYesterday(answers, today) && (
            <div className="stack tight">
              <p className="lead">{s.day.justAfterMidnight}</p>
              <button
                type="button"
                className="press"
                onClick={() => draft.keep({ ...answers, on: addDays(today, -1), time: undefined }, "check")}
              >
                {capital(words.day(addDays(today, -1), today))}
              </button>
            </div>
          )}
        </EnteredDay>
        <p>
          <span className="quiet">{s.kidding.sires}</span>
          <br />
          <b>{s.kidding.siresFromServices}</b>
        </p>
      </section>
      {answers.kids.map((kid, at) => (
        <section className={kid.off ? "card hatched" : "card"} key={kid.kid} aria-label={s.kidding.kid(at + 1)}>
          <div className="line-with-key">
            <div>
              <h2>{s.kidding.kid(at + 1)}</h2>
              <p>
                {kid.sex !== undefined && `${s.kidding.sexes[kid.sex]}, `}
                {kid.born === undefined ? s.kidding.born.alive : s.kidding.born[kid.born]}
                {kid.mark !== undefined && `, ${kid.mark}`}
                <WeightSaid typed={weightTyped(kid, unit)} />
              </p>
              {kid.tag !== undefined && <p className="tag">{kid.tag}</p>}
              {kid.sex === undefined && <p className="lead">{s.kidding.needsSex}</p>}
            </div>
            <button
              type="button"
              className="press"
              aria-label={s.frame.changeWhat(s.kidding.kid(at + 1))}
              onClick={() => stepTo(String(at), props, answers)}
            >
              {s.frame.change}
            </button>
          </div>
          <button
            type="button"
            className="press plain start"
            onClick={() => draft.keep(toggleKid(answers, at), "check")}
          >
            {kid.off ? s.kidding.putBack : s.kidding.takeOff}
          </button>
        </section>
      ))}
      <p className="quiet">{s.kidding.unfinished}</p>
    </Frame>
  );
}

/** The weight as it will be stored, in the unit in which it was typed; what is no weight is told before it is left out. */
function WeightSaid({ typed }: { readonly typed: TypedWeight }) {
  const s = useScreens();
  const read = readWeight(typed);
  if (read.state === "empty") return null;
  if (read.state === "weight") return `, ${weightsIn(typed.unit).said(read.kg)}`;
  return (
    <Told>
      {s.fact.weight[typed.unit]}: {typed.text}. {s.fact.weightWrong[read.state]} {s.kidding.weightLeftOut}
    </Told>
  );
}

/** The litter just entered: its living kids, each one tap from its head reading, and what to heed where one was born dead. */
export function LitterScreen({ entry }: { readonly entry: string }) {
  const s = useScreens();
  const asked = useAsked((answers) => answers.litter(entry), [entry]);
  if (asked.value === undefined) return null;
  const { alive, dead } = asked.value;
  return (
    <Frame heading={s.kidding.title} title={s.kidding.title} back="/" place="today">
      <h1>{alive.length === 0 ? s.kidding.entered : s.kidding.done(alive.length)}</h1>
      {dead.length > 0 && (
        <section className="card">
          <p className="lead">{s.kidding.bornDead(dead.length)}</p>
          <p>
            {care.afterLoss("gloves-and-vet")} {care.afterLoss("keep-what-came")}
          </p>
        </section>
      )}
      {alive.length > 0 && <p className="quiet">{s.kidding.readHeadsHint}</p>}
      <ul className="stack">
        {alive.map((kid) => (
          <li key={kid.id} className="card">
            <Named of={kid} />
            <div className="two">
              <a className="press" href={`#/animal/${kid.id}`}>
                {s.problems.open}
              </a>
              <a className="press main" href={`#/reading/${kid.id}`}>
                {s.animal.readHead}
              </a>
            </div>
          </li>
        ))}
      </ul>
      <a className="press" href="#/">
        {s.frame.toToday}
      </a>
    </Frame>
  );
}
