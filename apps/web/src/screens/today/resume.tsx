import { useEffect, useState } from "react";
import type { AnimalRef } from "@pollard/advice";
import { Link } from "wouter";
import type { Draft } from "../../adapters/database/idb-drafts.ts";
import { StatusMark } from "../../drawings/marks.tsx";
import { useGround, useScreens, useToday, words } from "../../house/use-house.tsx";
import { draftSaid, goatsOfDraft, hrefOfDraft, savedWhen, stepSaid } from "./model.ts";

/** What was left half done: which goat, where, when. Nothing is shown when nothing is pending. */
export function ResumeBanners() {
  const s = useScreens();
  const today = useToday();
  const { house } = useGround();
  const [drafts, setDrafts] = useState<readonly { readonly draft: Draft; readonly about: readonly AnimalRef[] }[]>([]);
  const [unread, setUnread] = useState(false);
  useEffect(() => {
    let wanted = true;
    const look = async (): Promise<void> => {
      const found = await house.drafts.all();
      if (!found.ok) {
        if (wanted) setUnread(true);
        return;
      }
      const named = await Promise.all(
        found.value.map(async (draft) => ({
          draft,
          about: await Promise.all(goatsOfDraft(draft).map((goat) => house.answers.ref(goat))),
        })),
      );
      if (wanted) setDrafts(named);
    };
    void look();
    const stop = house.onChange(() => void look());
    return () => {
      wanted = false;
      stop();
    };
  }, [house]);
  const putAside = async (draft: Draft): Promise<void> => {
    const kept = await house.drafts.save({ ...draft, state: "aside" });
    // Where it was not kept it is held, and drawn again it says so.
    const state = kept.ok ? "aside" : draft.state;
    setDrafts(drafts.map((each) => (each.draft === draft ? { ...each, draft: { ...draft, state } } : each)));
  };
  const named = (draft: Draft, about: readonly AnimalRef[]): string =>
    draftSaid(
      s,
      draft,
      about.map((goat) => words.label(goat)),
    );
  const open = drafts.filter(({ draft }) => draft.state === "open");
  const aside = drafts.filter(({ draft }) => draft.state === "aside");
  return (
    <>
      {unread && <p role="alert">{s.frame.notSavedUnavailable}</p>}
      {open.map(({ draft, about }) => (
        <section key={draft.key} className="card resume" aria-label={s.today.resume}>
          <p>
            <span className="quiet">{s.today.resume}</span>
            <br />
            <b className="say">{named(draft, about)}</b>
            <br />
            {s.today.resumeAt(stepSaid(s, draft), savedWhen(draft, today))}
          </p>
          {house.drafts.isHeld(draft.key) && (
            <p role="alert" className="saved alarm">
              <StatusMark status="now" />
              {s.safe.notSavedHeld}
            </p>
          )}
          <div className="two">
            <button type="button" className="press" onClick={() => void putAside(draft)}>
              {s.today.putAside}
            </button>
            <Link href={hrefOfDraft(draft)} className="press main">
              {s.today.carryOn}
            </Link>
          </div>
        </section>
      ))}
      {aside.length > 0 && (
        <details className="why">
          <summary>{s.today.aside(aside.length)}</summary>
          <div className="stack tight">
            {aside.map(({ draft, about }) => (
              <Link key={draft.key} href={hrefOfDraft(draft)} className="press start">
                {named(draft, about)}
              </Link>
            ))}
          </div>
        </details>
      )}
    </>
  );
}
