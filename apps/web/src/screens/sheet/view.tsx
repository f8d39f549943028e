import { useEffect, useMemo, useRef, useState } from "react";
import { giveFile } from "../../adapters/files/give-file.ts";
import { localMinute } from "../../adapters/clock.ts";
import { readPaper, writePaper } from "../../adapters/own-settings/paper.ts";
import { PrintIcon } from "../../drawings/icons.tsx";
import { useAsked, useGround, useScreens, useToday } from "../../house/use-house.tsx";
import { Answers } from "../../parts/answers/answers.tsx";
import { Frame } from "../../parts/frame/frame.tsx";
import { NotHere } from "../../parts/frame/not-here.tsx";
import { Told } from "../../parts/frame/told.tsx";
import type { SheetAsked, SheetMatter } from "../../worker/season-answers.ts";
import { printedMark } from "../vet-list/for-vet.ts";
import { usePrinted } from "../vet-list/use-printed.ts";
import { type Paper, PAPERS, sheetAsked, sheetDocument, sheetFile } from "./model.ts";
import { SheetFrame } from "./sheet-frame.tsx";
import { GuestLink } from "../shown/guest-link.tsx";

/** A sheet as it prints, to print or to keep as a file; works with no network. */
export function SheetScreen({ kind, about }: { readonly kind: string; readonly about: string | undefined }) {
  const s = useScreens();
  const today = useToday();
  const [notes, setNotes] = useState<"show" | "keep-private">("keep-private");
  const asked = sheetAsked(kind, about, notes);
  const answer = useAsked(
    (answers) => (asked === undefined ? Promise.resolve(undefined) : answers.sheet(asked, today)),
    [kind, about, notes, today],
  );
  if (asked === undefined || (answer.value === undefined && !answer.working))
    return <NotHere said={s.sheet.none} back="/plan" place="plan" />;
  return <SheetOf asked={asked} matter={answer.value} notes={notes} onNotes={setNotes} />;
}

function SheetOf(props: {
  readonly asked: SheetAsked;
  readonly matter: SheetMatter | undefined;
  readonly notes: "show" | "keep-private";
  readonly onNotes: (notes: "show" | "keep-private") => void;
}) {
  const s = useScreens();
  const today = useToday();
  const { house } = useGround();
  const { asked, matter } = props;
  const [paper, setPaper] = useState<Paper>(() => readPaper(localStorage));
  const [told, setTold] = useState<string>();
  const frame = useRef<HTMLIFrameElement>(null);
  const { printed, setPrinted } = usePrinted(asked.kind === "vet" ? asked.day : today);
  const herdName = house.herd.name;
  const sheet = useMemo(
    () =>
      matter === undefined
        ? undefined
        : sheetDocument(matter, { herdName, today, paper, printed: matter.kind === "vet" ? printed : undefined }),
    [matter, herdName, today, paper, printed],
  );
  useEffect(() => writePaper(localStorage, paper), [paper]);
  const remember = (): void => {
    if (matter?.kind === "vet") setPrinted(printedMark(matter.model, localMinute()));
  };
  const print = (): void => {
    frame.current?.contentWindow?.print();
    remember();
  };
  // The browser's own key would print the page around the sheet, and the sheet cut off.
  useEffect(() => {
    const instead = (event: KeyboardEvent): void => {
      if (!(event.ctrlKey || event.metaKey) || event.key.toLowerCase() !== "p") return;
      event.preventDefault();
      print();
    };
    window.addEventListener("keydown", instead);
    return () => window.removeEventListener("keydown", instead);
  });
  const keep = async (): Promise<void> => {
    if (sheet === undefined) return;
    const file = sheetFile(sheet, today);
    const given = await giveFile(file);
    if (given === "called-off") return;
    setTold(given === "shared" ? s.sheet.shared : s.sheet.kept(file.name));
    remember();
  };
  const title = s.sheet.titles[asked.kind];
  return (
    <Frame
      heading={title}
      title={title}
      back={asked.kind === "vet" ? `/vet/${asked.day}` : asked.kind === "kid" ? `/animal/${asked.id}` : "/plan"}
      place={asked.kind === "kid" ? "animals" : "plan"}
      dock={
        <div className="two">
          <button type="button" className="press" onClick={() => void keep()}>
            {s.sheet.keep}
          </button>
          <button type="button" className="press main" onClick={print}>
            <PrintIcon />
            {s.sheet.print}
          </button>
        </div>
      }
    >
      <h1 className="in-board">{title}</h1>
      <p>{s.sheet.hints[asked.kind]}</p>
      {told !== undefined && <Told>{told}</Told>}
      {asked.kind === "kid" && (
        <Answers
          name="notes"
          legend={s.sheet.notes}
          value={props.notes}
          onAnswer={props.onNotes}
          choices={(["keep-private", "show"] as const).map((answer) => ({
            value: answer,
            label: s.sheet.notesAnswers[answer],
          }))}
        />
      )}
      <Answers
        name="paper"
        legend={s.sheet.paper}
        shape="small"
        value={paper}
        onAnswer={setPaper}
        choices={PAPERS.map((each) => ({ value: each, label: s.sheet.papers[each] }))}
      />
      {sheet === undefined ? (
        <Told>{s.frame.working}</Told>
      ) : (
        <SheetFrame sheet={sheet} title={s.sheet.preview} frame={frame} />
      )}
      <p className="quiet">{s.sheet.leaves}</p>
      {asked.kind === "kid" && sheet !== undefined && house.herd.sort === "own" && (
        <GuestLink kid={asked.id} sheet={sheet} />
      )}
    </Frame>
  );
}
