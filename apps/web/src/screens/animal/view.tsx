import { daysFrom } from "@pollard/base";
import { animalId } from "@pollard/genetics";
import type { AnimalModel } from "@pollard/advice";
import { sameKey } from "@pollard/records";
import { type ReactNode, Suspense } from "react";
import { Link } from "wouter";
import { GrowthCurve } from "../../desk-screens-later.ts";
import { SexMark, StatusMark } from "../../drawings/marks.tsx";
import { useAsked, useScreens, useToday, weights, words } from "../../house/use-house.tsx";
import { DeedLine } from "../../parts/keeping/deed-line.tsx";
import { Frame } from "../../parts/frame/frame.tsx";
import { GoatLine, Lines } from "../../parts/lists/lines.tsx";
import { HistoryList } from "../../parts/lists/history-list.tsx";
import { IntersexPart } from "./intersex.tsx";
import {
  ageSaid,
  canEnter,
  contentSaid,
  grewSaid,
  growthKeyStands,
  isJustAdded,
  matedSaid,
  siresShown,
} from "./model.ts";
import { Told } from "../../parts/frame/told.tsx";
import { useDeeds } from "../../parts/keeping/use-deed.ts";
import type { AnimalPage } from "../../worker/herd-answers.ts";
import { BlindCard } from "../blind/card.tsx";
import type { Gate } from "../blind/model.ts";
import { useGate } from "../blind/use-gate.ts";
import { AnimalCarePart } from "../care/animal-care.tsx";
import { AnimalPhotos } from "../photo/animal-photos.tsx";
import { capital } from "../../parts/capital.ts";
import { OtherTraits, Why } from "./why.tsx";

/** One goat: what is known, how surely, why; what to do; and everything ever entered, each line with its undo. */
export function AnimalScreen({ id }: { readonly id: string }) {
  const s = useScreens();
  const today = useToday();
  const asked = useAsked((answers) => answers.animal(animalId(id), today), [id, today]);
  const page = asked.value;
  // Asked with the page and shown with it: what comes later would push down what is being read.
  const care = useAsked((answers) => answers.careOf(animalId(id), today), [id, today]).value;
  const gate = useGate(id, page?.model.kid);
  if (page === undefined || care === undefined)
    return (
      <Frame heading={s.animals.title} title={s.animals.title} back="/animals" place="animals">
        <Told>{s.frame.working}</Told>
      </Frame>
    );
  const { model, history } = page;
  const readings = gate === "open" ? "may-be-seen" : "hidden";
  const name = words.label(model.ref);
  return (
    <Frame heading={name} title={<Title model={model} />} back="/animals" place="animals">
      <div className="wide-two">
        <div className="stack">
          <h1 className="with-mark in-board">
            <SexMark sex={model.ref.sex} label={s.animals.sex[model.ref.sex]} />
            <span>{name}</span>
          </h1>
          <Head model={model} gate={gate} />
          <IntersexPart model={model} />
          <Doing model={model} />
          {isJustAdded(history, today) && (
            <Link href="/add" className="press">
              {s.animal.addAnother}
            </Link>
          )}
          <AnimalCarePart of={care} />
          <Known model={model} />
          {model.animal.born !== undefined && model.animal.weights.length > 1 && (
            <Suspense fallback={null}>
              <GrowthCurve animal={model.animal} born={model.animal.born} />
            </Suspense>
          )}
          <AnimalPhotos animal={model.animal} />
        </div>
        <div className="stack">
          <Carries model={model} gate={gate} />
          <OtherTraits id={model.ref.id} />
          {model.kids.length > 0 && (
            <section className="part kids-part">
              <h2>{s.animal.kids}</h2>
              <FirstFew
                of={model.kids.toReversed()}
                rest={s.animal.moreKids}
                shown={(kids) => (
                  <Lines>
                    {kids.map((kid) => (
                      <GoatLine key={kid.id} of={kid} href={`/animal/${kid.id}`} />
                    ))}
                  </Lines>
                )}
              />
            </section>
          )}
          <section className="part">
            <h2>{s.animal.history}</h2>
            {page.putTogether.length > 0 && <EnteredTwice pairs={page.putTogether} />}
            <FirstFew
              of={history}
              rest={s.animal.earlierLines}
              shown={(part, start) => (
                <HistoryList
                  start={start}
                  lines={part.map(({ line }) => line)}
                  about={(line) => matedSaid(s, words, history, line)}
                  until={({ entry }) => history.find(({ line }) => line.entry === entry)?.until}
                  content={(line) => contentSaid(s, words, { line, animal: model.animal, readings, today })}
                />
              )}
            />
          </section>
        </div>
      </div>
    </Frame>
  );
}

/** How many lines of a long list stand open: what is asked for most is what came last. */
const OPEN_LINES = 8;

/** A list of which a long rest is folded, so that what comes after it stays in reach of a thumb. */
function FirstFew<T>(props: {
  readonly of: readonly T[];
  readonly rest: (n: number) => string;
  readonly shown: (part: readonly T[], start: "newest" | "later") => ReactNode;
}) {
  const rest = props.of.length > OPEN_LINES + 2 ? props.of.slice(OPEN_LINES) : [];
  return (
    <>
      {props.shown(props.of.slice(0, props.of.length - rest.length), "newest")}
      {rest.length > 0 && (
        <details className="why">
          <summary>{props.rest(rest.length)}</summary>
          {props.shown(rest, "later")}
        </details>
      )}
    </>
  );
}

/** Two records that were put together, and the way to part them. */
function EnteredTwice({ pairs }: { readonly pairs: AnimalPage["putTogether"] }) {
  const s = useScreens();
  const today = useToday();
  const deeds = useDeeds();
  const part = () =>
    void deeds.act(
      s.problems.parted,
      pairs.map((pair) => ({ kind: "setting", on: today, body: { key: sameKey(...pair), value: "two" } })),
    );
  return (
    <div className="card">
      <p>{s.problems.putTogether}</p>
      <button type="button" className="press" onClick={part}>
        {s.problems.twoKids}
      </button>
      {deeds.saving.state !== "nothing" && <DeedLine deeds={deeds} />}
    </div>
  );
}

function Title({ model }: { readonly model: AnimalModel }) {
  return (
    <>
      <SexMark sex={model.ref.sex} />
      {words.label(model.ref)}{" "}
      {model.ref.tag !== undefined && model.ref.name !== undefined && <span className="tag">{model.ref.tag}</span>}
    </>
  );
}

/** How long a kid's page says that its head is settled, days: until the three-month check is behind it. */
const HEAD_SHOWN_DAYS = 120;

/** The head of a kid whose days still count: what to do, or the way to its answer. */
function Head({ model, gate }: { readonly model: AnimalModel; readonly gate: Gate | "looking" }) {
  const s = useScreens();
  const today = useToday();
  const mates = useAsked((answers) => answers.mates(model.ref.id), [model.ref.id]).value;
  const { kid } = model;
  if (kid === undefined || (kid.advice.kind === "done" && kid.ages.ageDays > HEAD_SHOWN_DAYS)) return null;
  if (gate === "looking") return null;
  if (gate !== "open") return <BlindCard kid={model.ref.id} readers={kid.belief?.readers ?? []} gate={gate} />;
  const said = words.advice(kid.advice, today);
  const urgent = kid.advice.kind === "ring-vet";
  const quiet = kid.advice.kind === "done";
  const grew = model.animal.outcomes.at(-1);
  return (
    <section className={urgent ? "card now" : "card"} aria-label={s.animal.head}>
      <p className="quiet">
        {s.animal.head}, {s.animal.ageDays(kid.ages.ageDays)}
        {kid.ages.early !== undefined && kid.ages.early > 0 && `, ${s.animal.early(kid.ages.early)}`}
      </p>
      <p className="say with-mark">
        <StatusMark status={urgent ? "now" : quiet ? "done" : kid.advice.kind === "read-head" ? "soon" : "planned"} />
        <span>{said.title}</span>
      </p>
      {said.when !== undefined && <p>{capital(said.when)}</p>}
      {kid.advice.kind === "done" && kid.advice.what === "outcome-known" && grew !== undefined && (
        <p>{capital(grewSaid(s, grew))}</p>
      )}
      <p>{said.why}</p>
      {(mates ?? []).length > 1 && (
        <Link href={`/compare/${model.ref.id}`} className="cell-link">
          {s.compare.link}
        </Link>
      )}
      {!quiet && (
        <div className="two">
          {kid.belief !== undefined && (
            <Link href={`/answer/${model.ref.id}`} className="press main snug">
              {s.animal.seeAnswer}
            </Link>
          )}
          <Link href={`/reading/${model.ref.id}`} className={kid.belief === undefined ? "press main" : "press"}>
            {kid.belief === undefined ? s.animal.readHead : s.animal.readAgain}
          </Link>
        </div>
      )}
    </section>
  );
}

function Doing({ model }: { readonly model: AnimalModel }) {
  const s = useScreens();
  const today = useToday();
  const { born, departure } = model.animal;
  const ageDays = born === undefined ? undefined : daysFrom(born, today);
  const enter = canEnter(model.ref.sex, departure === undefined ? "here" : "gone", ageDays);
  const stands = growthKeyStands(model.animal);
  const growth = enter.includes("growth") && (
    <Link href={`/outcome/${model.ref.id}`} className="press">
      {s.animal.seeGrowth}
    </Link>
  );
  if (departure !== undefined)
    return (
      <div className="two">
        <Link href={`/sheet/kid/${model.ref.id}`} className="press">
          {s.sheet.forBuyer}
        </Link>
        <Link href={`/pedigree/${model.ref.id}`} className="press">
          {s.pedigree.link}
        </Link>
      </div>
    );
  return (
    <div className="two">
      {enter.includes("kidding") && (
        <Link href={`/kidding/${model.ref.id}`} className="press">
          {s.animal.kidding}
        </Link>
      )}
      {enter.includes("mating") && (
        <Link href={`/service/${model.ref.id}`} className="press">
          {s.animal.mating}
        </Link>
      )}
      {enter.includes("mating") && model.ref.sex === "doe" && (
        <Link href={`/seen/${model.ref.id}`} className="press">
          {s.season.enterSeen}
        </Link>
      )}
      {stands === "with-what-is-due" && growth}
      <Link href={`/sheet/kid/${model.ref.id}`} className="press">
        {s.sheet.forBuyer}
      </Link>
      <Link href={`/pedigree/${model.ref.id}`} className="press">
        {s.pedigree.link}
      </Link>
      <Link href={`/fact/${model.ref.id}`} className="press">
        {s.animal.other}
      </Link>
      {stands === "last" && growth}
    </div>
  );
}

function Known({ model }: { readonly model: AnimalModel }) {
  const s = useScreens();
  const today = useToday();
  const { animal } = model;
  const sires = siresShown(model.sires);
  const weight = animal.weights.at(-1);
  return (
    <section className="part">
      <div className="line-with-key">
        <h2>{s.animal.known}</h2>
        <Link href={`/correct/${model.ref.id}`} className="press" aria-label={s.frame.changeWhat(s.correct.title)}>
          {s.frame.change}
        </Link>
      </div>
      <dl className="facts">
        <dt>{s.animal.tag}</dt>
        <dd className="tag">{animal.tag ?? s.frame.none}</dd>
        {animal.chip !== undefined && (
          <>
            <dt>{s.lists.chip}</dt>
            <dd className="tag">{animal.chip}</dd>
          </>
        )}
        <dt>{s.animal.sex}</dt>
        <dd>{s.animals.sex[animal.sex]}</dd>
        <dt>{s.animal.born}</dt>
        <dd>
          {animal.born === undefined
            ? s.animal.unknown
            : `${capital(words.day(animal.born, today))}, ${ageSaid(s, animal.born, today)}`}
        </dd>
        {animal.breed !== undefined && (
          <>
            <dt>{s.animal.breed}</dt>
            <dd>{animal.breed}</dd>
          </>
        )}
        {animal.mark !== undefined && (
          <>
            <dt>{s.animal.mark}</dt>
            <dd>{animal.mark}</dd>
          </>
        )}
        <dt>{s.animal.dam}</dt>
        <dd>
          {model.dam === undefined ? s.animal.unknown : <GoatLink id={model.dam.id} name={words.label(model.dam)} />}
        </dd>
        <dt>{sires.length > 1 ? s.animal.sireOneOf : s.animal.sire}</dt>
        <dd>
          {sires.length === 0 && s.animal.unknown}
          {sires.map(({ sire, counted }) => (
            <div key={sire?.id ?? "unknown"}>
              {sire === undefined ? s.animal.sireUnwritten : <GoatLink id={sire.id} name={words.label(sire)} />}
              {counted !== undefined && `: ${words.counted(counted)}`}
            </div>
          ))}
        </dd>
        {animal.head !== undefined && (
          <>
            <dt>{s.animal.grownHead}</dt>
            <dd>{s.animalForm.heads[animal.head.head]}</dd>
          </>
        )}
        {weight !== undefined && (
          <>
            <dt>{s.animal.weight}</dt>
            <dd>{s.vetList.weighed(weights.said(weight.kg), words.day(weight.on, today))}</dd>
          </>
        )}
        {animal.departure !== undefined && (
          <>
            <dt>{s.animal.left}</dt>
            <dd>
              {s.fact.whys[animal.departure.why]}, {words.day(animal.departure.on, today)}
            </dd>
          </>
        )}
      </dl>
    </section>
  );
}

const GoatLink = ({ id, name }: { readonly id: string; readonly name: string }) => (
  <Link href={`/animal/${id}`} className="cell-link">
    {name}
  </Link>
);

function Carries({ model, gate }: { readonly model: AnimalModel; readonly gate: Gate | "looking" }) {
  const s = useScreens();
  const { genotype, kid } = model;
  if (gate !== "open" || (kid?.belief === undefined && kid?.advice.kind === "read-head"))
    return (
      <section className="part">
        <h2>{s.animal.carries}</h2>
        <p>{s.animal.eyesFirst}</p>
      </section>
    );
  return (
    <section className="part">
      <h2>{s.animal.carries}</h2>
      <p className={genotype.surety === "proven" || genotype.surety === "near-sure" ? "say" : "say doubt"}>
        {words.genotype(genotype)}
      </p>
      <p>
        {s.animal.basedOnKids(genotype.kidsKnown, genotype.kidsHorned)} {s.animal.basedOnTests(genotype.tests)}
      </p>
      <Why id={model.ref.id} name={s.animal.carries} />
    </section>
  );
}
