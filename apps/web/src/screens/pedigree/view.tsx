import type { HerdBookLine } from "@pollard/advice";
import { useCallback, useMemo, useRef, useState } from "react";
import { Link, useLocation } from "wouter";
import { PrintIcon } from "../../drawings/icons.tsx";
import { useAsked, useScreens, useToday, words } from "../../house/use-house.tsx";
import { Answers } from "../../parts/answers/answers.tsx";
import { Frame } from "../../parts/frame/frame.tsx";
import { Told } from "../../parts/frame/told.tsx";
import { PedigreeDrawing } from "./drawing.tsx";
import { familyOf, type FamilySymbol } from "./family.ts";
import { PedigreeKey } from "./key.tsx";
import { layoutOf } from "./layout.ts";
import { zoomAfter } from "./model.ts";
import { PedigreeList } from "./twin.tsx";

/** What the frame adds to the drawing on either side, in its own units. */
const EDGE = 46;

const GENERATIONS = ["1", "2", "3", "5"] as const;

/** The pedigree drawn: one goat's family, or the whole herd. */
export function PedigreeScreen({ id }: { readonly id: string | undefined }) {
  const s = useScreens();
  const today = useToday();
  const asked = useAsked((answers) => answers.herdBook(today), [today]);
  const lines = asked.value;
  const of = lines?.find(({ ref }) => ref.id === id);
  const title = of === undefined ? s.pedigree.herd : s.pedigree.family(words.label(of.ref));
  return (
    <Frame
      heading={title}
      title={title}
      back={id === undefined ? "/animals" : `/animal/${id}`}
      place="animals"
      dock={
        lines?.length === 0 ? undefined : (
          <div className="two">
            {id === undefined ? null : (
              <Link href="/pedigree" className="press">
                {s.pedigree.wholeHerd}
              </Link>
            )}
            <button type="button" className="press main" onClick={() => window.print()}>
              <PrintIcon />
              {s.pedigree.print}
            </button>
          </div>
        )
      }
    >
      <h1 className="in-board">{title}</h1>
      {lines === undefined && <Told>{s.frame.working}</Told>}
      {lines !== undefined && (lines.length === 0 || (id !== undefined && of === undefined)) && (
        <p className="card say">{lines.length === 0 ? s.pedigree.empty : s.frame.noSuchAnimal}</p>
      )}
      {lines !== undefined && lines.length > 0 && (id === undefined || of !== undefined) && (
        <Drawn lines={lines} id={id} title={title} />
      )}
    </Frame>
  );
}

function Drawn(props: {
  readonly lines: readonly HerdBookLine[];
  readonly id: string | undefined;
  readonly title: string;
}) {
  const s = useScreens();
  const { lines, id } = props;
  const [, go] = useLocation();
  const [generations, setGenerations] = useState<(typeof GENERATIONS)[number]>("2");
  const [opened, setOpened] = useState<ReadonlySet<string>>(new Set());
  const [zoom, setZoom] = useState(1);
  const around = useRef<HTMLDivElement>(null);
  const { family, layout } = useMemo(() => {
    const chosen = familyOf(
      lines,
      id === undefined ? { who: "all" } : { who: "one", id, generations: Number(generations) },
      opened,
    );
    return { family: chosen, layout: layoutOf(chosen) };
  }, [lines, id, generations, opened]);
  const onOpen = (symbol: FamilySymbol): void => {
    const [line] = symbol.lines;
    if (symbol.kind === "like-kids") setOpened(new Set([...opened, symbol.id]));
    else if (line !== undefined) go(line.ref.id === id ? `/animal/${id}` : `/pedigree/${line.ref.id}`);
  };
  const { width, height } = layout;
  const onZoom = useCallback(
    (step: "bigger" | "smaller" | "fit") => {
      const room = around.current?.clientWidth ?? width;
      const whole = Math.min(1, room / (width + 2 * EDGE), (window.innerHeight * 0.7) / height);
      setZoom((before) => (step === "fit" ? whole : zoomAfter(before, step)));
    },
    [width, height],
  );
  const animals = [...family.symbols.values()].reduce((sum, symbol) => sum + symbol.lines.length, 0);
  return (
    <>
      <p>{s.pedigree.count(animals, layout.rows.length)}</p>
      <div ref={around}>
        <PedigreeDrawing
          family={family}
          layout={layout}
          zoom={zoom}
          label={s.pedigree.picture(props.title)}
          onOpen={onOpen}
          onZoom={onZoom}
        />
      </div>
      <div className="no-print stack">
        {/* oxlint-disable-next-line jsx-a11y/prefer-tag-over-role -- three keys that belong together, no form */}
        <div className="zoom-keys" role="group" aria-label={s.pedigree.zoom}>
          {(["smaller", "bigger", "fit"] as const).map((step) => (
            <button key={step} type="button" className="press" onClick={() => onZoom(step)}>
              {s.pedigree[step]}
            </button>
          ))}
        </div>
        {id !== undefined && (
          <Answers
            name="generations"
            legend={s.pedigree.generations}
            shape="three"
            value={generations}
            choices={GENERATIONS.map((n) => ({ value: n, label: n }))}
            onAnswer={setGenerations}
          />
        )}
      </div>
      <details className="why no-print">
        <summary>{s.pedigree.asList}</summary>
        <PedigreeList family={family} layout={layout} />
      </details>
      <PedigreeKey />
      <details className="why no-print desk-only">
        <summary>{s.pedigree.keys}</summary>
        <ul>
          {s.pedigree.keyLines.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      </details>
    </>
  );
}
