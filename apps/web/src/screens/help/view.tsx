import type { HelpPage, HelpPart } from "@pollard/words";
import { BUD_FEELS, CROWNS, GROWTHS, KNOB_SHAPES, SKIN_HOLDS, WHORLS } from "@pollard/husbandry";
import { type ReactNode, useState } from "react";
import { GrowthDrawing, KnobDrawing } from "../../drawings/growths.tsx";
import { SignDrawing } from "../../drawings/sign-drawing.tsx";
import { useScreens } from "../../house/use-house.tsx";
import { help } from "../../house/wording-later.ts";
import { Frame } from "../../parts/frame/frame.tsx";
import { TextField } from "../../parts/answers/text-field.tsx";
import { Told } from "../../parts/frame/told.tsx";
import { termsFor } from "./model.ts";

/** All pages of help, and the words of the trade. */
export function HelpScreen() {
  const s = useScreens();
  return (
    <Frame heading={s.help.title} title={s.help.title} back="/">
      <h1 className="in-board">{s.help.title}</h1>
      <p>{s.help.intro}</p>
      <Pages pages={help.pages} />
      <a className="press" href="#/help/words">
        {s.help.terms}
      </a>
      <p className="quiet">{s.help.caution}</p>
    </Frame>
  );
}

/** One page of help. A page that is not there is the list of them. */
export function HelpPageScreen({ id }: { readonly id: string }) {
  const s = useScreens();
  const page = help.pages.find((each) => each.id === id);
  if (id === "words") return <TermsScreen />;
  if (page === undefined) return <HelpScreen />;
  return (
    <Frame heading={page.title} title={page.title} back="/help">
      <h1 className="in-board">{page.title}</h1>
      <p className="lead">{page.short}</p>
      {page.parts.map((part) => (
        <section key={part.heading} className="part">
          <h2>{part.heading}</h2>
          {part.lines.map((line) => (
            <p key={line}>{line}</p>
          ))}
          {part.drawn !== undefined && <Drawings of={part.drawn} />}
        </section>
      ))}
      <p className="quiet">
        {s.help.from}: {page.sources.map((key) => help.sourceNames[key] ?? key).join("; ")}.
      </p>
      <p className="quiet">{s.help.caution}</p>
      <h2>{s.help.more}</h2>
      <Pages pages={help.pages.filter((each) => each.id !== id)} />
    </Frame>
  );
}

const Pages = ({ pages }: { readonly pages: readonly HelpPage[] }) => (
  <ul className="stack">
    {pages.map(({ id, title, short }) => (
      <li key={id}>
        <a className="press two-line" href={`#/help/${id}`}>
          <span>{title}</span>
          <span>{short}</span>
        </a>
      </li>
    ))}
  </ul>
);

/** Every answer to a sign, or everything that may grow, drawn and named. */
function Drawings({ of }: { readonly of: NonNullable<HelpPart["drawn"]> }) {
  const s = useScreens();
  const drawn: readonly { readonly name: string; readonly picture: ReactNode }[] =
    of === "growth"
      ? GROWTHS.filter((growth) => growth !== "unsure").map((growth) => ({
          name: s.outcome.growths[growth],
          picture: <GrowthDrawing growth={growth} />,
        }))
      : of === "knob"
        ? KNOB_SHAPES.filter((shape) => shape !== "unsure").map((shape) => ({
            name: s.outcome.knobShapes[shape],
            picture: <KnobDrawing shape={shape} />,
          }))
        : SIGNS[of].map((finding) => ({
            name: (s.sign[of].answers as Readonly<Record<string, string>>)[finding] ?? finding,
            picture: <SignDrawing sign={of} finding={finding} />,
          }));
  return (
    <ul className="drawn-answers">
      {drawn.map(({ name, picture }) => (
        <li key={name}>
          {picture}
          <span>{name}</span>
        </li>
      ))}
    </ul>
  );
}

const SIGNS = { feel: BUD_FEELS, skin: SKIN_HOLDS, whorls: WHORLS, crown: CROWNS } as const;

/** Words of the trade, to be looked up. */
function TermsScreen() {
  const s = useScreens();
  const [typed, setTyped] = useState("");
  const found = termsFor(help.terms, typed);
  return (
    <Frame heading={s.help.terms} title={s.help.terms} back="/help">
      <h1 className="in-board">{s.help.terms}</h1>
      <TextField label={s.help.find} value={typed} onText={setTyped} />
      {found.length === 0 && <Told>{s.help.none}</Told>}
      <dl className="terms">
        {found.map(({ word, means }) => (
          <div key={word}>
            <dt>{word}</dt>
            <dd>{means}</dd>
          </div>
        ))}
      </dl>
    </Frame>
  );
}
