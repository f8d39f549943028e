import { countedOf } from "@pollard/advice";
import { Link } from "wouter";
import { addDays } from "@pollard/base";
import { SexMark } from "../../drawings/marks.tsx";
import { useScreens, useToday, words } from "../../house/use-house.tsx";
import { useWide } from "../../parts/frame/use-wide.ts";
import { Fold } from "../../parts/lists/fold.tsx";
import { Named } from "../../parts/lists/lines.tsx";
import type { DueDoe, SeasonModel } from "../../worker/season-answers.ts";
import { DotFigures, TwentyDots } from "./dots.tsx";
import { dayMarks, kiddingDots, likeliestLitter } from "./model.ts";

/** Chance from which a doe counts as in kid without a number beside it, and a buck as the sire. */
const SURE = 0.97;
/** Does shown at once; the rest are one tap away. */
const SHOWN = 12;
/** Chance below which a buck is not named as a sire. */
const HARDLY = 0.03;

/** Every doe that may kid, the next first: her days, how surely she is in kid, by whom. */
export function DueDoes({ model }: { readonly model: SeasonModel }) {
  const s = useScreens();
  const wide = useWide();
  const [next, later] = [model.due.slice(0, SHOWN), model.due.slice(SHOWN)];
  return (
    <section className="part">
      <h2>{s.plan.due}</h2>
      {model.due.length === 0 ? (
        <p>{s.plan.dueNone}</p>
      ) : (
        <>
          {wide === "desk" && <p className="quiet">{s.season.dueDotIs}</p>}
          <DoeList does={next} />
          {later.length > 0 && (
            <details className="why">
              <summary>{s.season.laterDoes(later.length)}</summary>
              <DoeList does={later} />
            </details>
          )}
        </>
      )}
      <Link href="/care" className="press">
        {s.care.allOpen}
      </Link>
    </section>
  );
}

const DoeList = ({ does }: { readonly does: readonly DueDoe[] }) => (
  <ul className="stack">
    {does.map((doe) => (
      <Doe key={doe.expected.doe.id} due={doe} />
    ))}
  </ul>
);

function Doe({ due }: { readonly due: DueDoe }) {
  const s = useScreens();
  const today = useToday();
  const { doe, days, inKid, litter, sires, returns } = due.expected;
  const wide = useWide();
  const picture = kiddingDots(due);
  const size = likeliestLitter(litter);
  const named = sires.flatMap(({ sire, chance }) =>
    sire === undefined || chance < HARDLY
      ? []
      : [
          chance > 1 - 2 * HARDLY
            ? words.label(sire)
            : `${words.label(sire)} (${words.counted(countedOf(chance, 20))})`,
        ],
  );
  const range = days && s.season.dueRange(words.day(days.from, today), words.day(days.to, today));
  const running = inKid < SURE && due.expected.served.to > today;
  const chance = inKid > SURE ? undefined : words.counted(countedOf(inKid, 20));
  const surely =
    chance === undefined
      ? s.season.inKidSure
      : running
        ? s.season.inKidSoFar(chance, words.day(due.expected.served.to, today))
        : s.season.inKid(chance);
  const name = (
    <span className="with-mark">
      <SexMark sex={doe.sex} label={s.animals.sex[doe.sex]} />
      <Named of={doe} />
    </span>
  );
  const about =
    days === undefined
      ? s.season.emptyLikely
      : running
        ? s.season.dueFrom(words.day(days.from, today))
        : s.season.dueAbout(words.day(days.likely, today));
  return (
    <li className="card">
      <Fold
        desk={<div className="line-with-key">{name}</div>}
        line={
          <>
            {name}
            <span className="fold-answer">
              {about} {surely}
            </span>
          </>
        }
      >
        {picture === undefined || days === undefined || range === undefined ? (
          <p>{s.season.emptyLikely}</p>
        ) : (
          <figure className="stack tight">
            <figcaption>
              <b>{s.season.dueDots(words.day(days.likely, today))}</b> {range}
            </figcaption>
            <TwentyDots
              dots={picture.dots}
              span={picture.span}
              across={1}
              marks={dayMarks(picture, days.likely).map(({ at, day }) => ({ at, text: s.season.shortDay(day) }))}
              label={range}
            />
            {wide === "phone" && <p className="quiet">{s.season.dueDotIs}</p>}
            <DotFigures
              dots={picture.dots}
              of={s.plots.day}
              nameOf={(at) => s.season.shortDay(addDays(picture.first, at))}
            />
          </figure>
        )}
        <p>
          {surely} {size !== undefined && s.season.litter(s.season.litters[size])}{" "}
          {named.length > 0 && s.season.sireOf(named.join(s.plan.orJoin))}
        </p>
        {returns[0] !== undefined && inKid < SURE && (
          <p className="lead">{s.season.returns(words.day(returns[0].from, today), words.day(returns[0].to, today))}</p>
        )}
        <div className="two">
          <Link href={`/animal/${doe.id}`} className="press" aria-label={`${s.season.openDoe}: ${words.label(doe)}`}>
            {s.season.openDoe}
          </Link>
          <Link
            href={`/seen/${doe.id}`}
            className="press snug"
            aria-label={`${s.season.enterSeen}: ${words.label(doe)}`}
          >
            {s.season.enterSeen}
          </Link>
        </div>
      </Fold>
    </li>
  );
}
