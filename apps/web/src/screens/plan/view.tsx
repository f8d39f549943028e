import type { Day } from "@pollard/base";
import { useState } from "react";
import { Link } from "wouter";
import { PlusIcon } from "../../drawings/icons.tsx";
import { useAsked, useScreens, useToday, words } from "../../house/use-house.tsx";
import { Frame } from "../../parts/frame/frame.tsx";
import { Fold } from "../../parts/lists/fold.tsx";
import { GoatLine, Lines } from "../../parts/lists/lines.tsx";
import { DeedLine } from "../../parts/keeping/deed-line.tsx";
import { useDeeds } from "../../parts/keeping/use-deed.ts";
import { useWordLeft } from "../../parts/keeping/word-left.ts";
import { Told } from "../../parts/frame/told.tsx";
import { capital } from "../../parts/capital.ts";
import type { PlanModel } from "../../worker/herd-answers.ts";
import { DueDoes } from "../season/due-does.tsx";
import { isThisSeason } from "../season/model.ts";
import { PaperPart } from "../sheet/paper-part.tsx";
import { SeasonTimeline } from "../season/timeline.tsx";
import { useSeason } from "../season/use-season.ts";
import { KiddingTimeBanner } from "../visitors/banner.tsx";
import { VetDays } from "../season/vet-days.tsx";

/** What lies ahead: does due to kid, vet days; and the matings behind it. */
export function PlanScreen() {
  const s = useScreens();
  const today = useToday();
  const asked = useAsked((answers) => answers.plan(today), [today]);
  const plan = asked.value;
  const deeds = useDeeds(useWordLeft());
  const [tried, setTried] = useState<readonly Day[]>([]);
  const season = useSeason(today, tried);
  const recent = (plan?.services ?? []).filter(({ service }) => isThisSeason(service, today));
  const earlier = (plan?.services ?? []).filter(({ service }) => !isThisSeason(service, today));
  return (
    <Frame
      heading={s.plan.title}
      title={s.plan.title}
      place="plan"
      dock={deeds.saving.state === "nothing" ? undefined : <DeedLine deeds={deeds} />}
    >
      <h1 className="in-board">{s.plan.title}</h1>
      <KiddingTimeBanner />
      {plan === undefined ? (
        <Told>{s.frame.working}</Told>
      ) : (
        <>
          {season !== undefined && <SeasonTimeline model={season} />}
          <div className="wide-two stack">
            {season === undefined ? (
              <Told>{s.season.working}</Told>
            ) : (
              <>
                <VetDays model={season} trying={{ days: tried, setDays: setTried }} />
                <DueDoes model={season} />
              </>
            )}
          </div>
          <section className="part">
            <h2>{s.plan.services}</h2>
            <Link href="/service" className="press">
              <PlusIcon />
              {s.plan.addService}
            </Link>
            {plan.services.length === 0 ? (
              <p>{s.plan.servicesNone}</p>
            ) : (
              <>
                {recent.length > 0 && (
                  <Fold line={s.season.matings(recent.length)}>
                    <Matings services={recent} />
                  </Fold>
                )}
                {earlier.length > 0 && (
                  <details className="why">
                    <summary>{s.season.earlierMatings(earlier.length)}</summary>
                    <Matings services={earlier} />
                  </details>
                )}
              </>
            )}
          </section>
          <PaperPart />
          <section className="part stack">
            <Link href="/pairings" className="press start">
              {s.pairings.lead}
            </Link>
            <Link href="/score" className="press start">
              {s.score.title}
            </Link>
          </section>
        </>
      )}
    </Frame>
  );
}

function Matings({ services }: { readonly services: PlanModel["services"] }) {
  const s = useScreens();
  const today = useToday();
  return (
    <Lines>
      {services.map(({ service, doe, bucks }) => (
        <GoatLine key={`${service.entry} ${service.on} ${service.until}`} of={doe} href={`/animal/${doe.id}`}>
          {s.plan.with(bucks.map((buck) => words.label(buck)).join(s.plan.orJoin))}
          <br />
          <span className="quiet">
            {capital(
              service.until === service.on
                ? words.day(service.on, today)
                : s.plan.span(words.day(service.on, today), words.day(service.until, today)),
            )}
          </span>
        </GoatLine>
      ))}
    </Lines>
  );
}
