import type { Screens } from "@pollard/words";
import { Fragment, type ReactNode, useEffect, useRef } from "react";
import { Link, useLocation } from "wouter";
import { AnimalsIcon, BackIcon, PlanIcon, SafeIcon, TodayIcon } from "../../drawings/icons.tsx";
import { useGround, useScreens } from "../../house/use-house.tsx";
import { stepsBehind } from "./address.ts";
import { useWide } from "./use-wide.ts";
import { PhoneDayQuestion } from "./phone-day-question.tsx";
import { useAwake } from "./use-awake.ts";
import { useClearOfBars } from "./use-clear-of-bars.ts";

export type Place = "today" | "animals" | "plan" | "safe";

/**
 * The frame around every screen: a slate at the head with Back and whose hand it is, the page, and the four places.
 *
 * `dock` is what the thumb needs. On a phone it takes the place of the four places while something is being entered
 * (`capture`), with Safe still one tap away at the head. A vet's phone knows visits only, and has no places.
 */
export function Frame(props: {
  readonly title: ReactNode;
  /** What the browser's tab says. */
  readonly heading: string;
  readonly place?: Place;
  readonly back?: string;
  readonly dock?: ReactNode;
  readonly capture?: "capture";
  readonly children: ReactNode;
}) {
  const s = useScreens();
  const isVets = useGround().house.herd.role === "vet";
  const page = useRef<HTMLElement>(null);
  const [location, go] = useLocation();
  useEffect(() => {
    document.title = `${props.heading} – ${s.frame.app}`;
  }, [props.heading, s]);
  useEffect(() => {
    window.scrollTo(0, 0);
    page.current?.focus({ preventScroll: true });
  }, [location]);
  useAwake(props.capture);
  const frame = useClearOfBars();
  const goBack = (): void => {
    if (stepsBehind() > 0) window.history.back();
    else go(props.back ?? "/");
  };
  return (
    <div className="frame" ref={frame} data-capture={props.capture}>
      <header className="board">
        {props.back !== undefined && (
          <button type="button" className="board-key" onClick={goBack} aria-label={s.frame.back}>
            <BackIcon />
          </button>
        )}
        <div className="board-title">{props.title}</div>
        {props.capture && !isVets && (
          <Link href="/safe" className="board-key phone-only" aria-label={s.frame.safe}>
            <SafeIcon />
          </Link>
        )}
        <Holder />
      </header>
      <main className="page stack" ref={page} tabIndex={-1}>
        {props.capture && <PhoneDayQuestion at={location} />}
        {props.children}
      </main>
      {props.dock && (
        <section className="dock" aria-label={s.frame.act}>
          {props.dock}
        </section>
      )}
      {!isVets && (
        <nav className="foot" aria-label={s.frame.places}>
          <Places here={props.place} />
        </nav>
      )}
    </div>
  );
}

function Holder() {
  const s = useScreens();
  const { who } = useGround();
  return (
    <Link
      href="/holder"
      className="board-key outlined"
      aria-label={who === undefined ? s.frame.nobody : s.frame.holder(who)}
    >
      <span className="holder">{who === undefined ? "?" : firstName(who)}</span>
    </Link>
  );
}

/** What a person is called to their face: what stands on the small key at the head. */
const firstName = (name: string): string => name.trim().split(/\s+/)[0] ?? "";

/** The four places; at a desk, under the one that one is in, what is one step away from it. */
function Places({ here }: { readonly here: Place | undefined }) {
  const s = useScreens();
  const wide = useWide();
  const [location] = useLocation();
  const places = [
    { place: "today", href: "/", icon: <TodayIcon />, word: s.frame.today },
    { place: "animals", href: "/animals", icon: <AnimalsIcon />, word: s.frame.animals },
    { place: "plan", href: "/plan", icon: <PlanIcon />, word: s.frame.plan },
    { place: "safe", href: "/safe", icon: <SafeIcon />, word: s.frame.safe },
  ] as const;
  return (
    <div className="places">
      {places.map(({ place, href, icon, word }) => {
        const near = wide === "desk" && here === place ? nearTo(place, s) : [];
        const beside = near.some((step) => step.href === location);
        return (
          <Fragment key={place}>
            <Link href={href} aria-current={here === place ? (beside ? "true" : "page") : undefined}>
              {icon}
              {word}
            </Link>
            {near.map((step) => (
              <Link
                key={step.href}
                href={step.href}
                className="near"
                aria-current={step.href === location ? "page" : undefined}
              >
                {step.word}
              </Link>
            ))}
          </Fragment>
        );
      })}
    </div>
  );
}

/** The screens of a place that need no goat to be named first. */
function nearTo(place: Place, s: Screens): readonly { readonly href: string; readonly word: string }[] {
  if (place === "animals")
    return [
      { href: "/pedigree", word: s.pedigree.linkHerd },
      { href: "/entries", word: s.entries.link },
      { href: "/list", word: s.lists.title },
    ];
  if (place === "plan")
    return [
      { href: "/pairings", word: s.pairings.title },
      { href: "/forecast", word: s.pairings.toForecast },
      { href: "/tests", word: s.pairings.toTests },
      { href: "/review", word: s.pairings.toReview },
      { href: "/kept", word: s.pairings.toKept },
      { href: "/season/vet", word: s.season.wishesTitle },
    ];
  return [];
}
