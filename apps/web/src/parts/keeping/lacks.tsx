import { createContext, type ReactNode, useContext, useEffect, useId, useRef } from "react";
import { useScreens } from "../../house/use-house.tsx";

/** One thing that keeps answers from being stored: at which field, and what is wrong or missing there. */
export interface Lack {
  readonly field: string;
  readonly said: string;
}

/** What keeps answers from being stored, once somebody wanted them stored; `tries` counts how often. */
export interface Lacking {
  readonly lacks: readonly Lack[];
  readonly tries: number;
}

const LacksHere = createContext<readonly Lack[]>([]);

/** What is wrong or missing at a field; nothing before somebody wanted to store. */
export function useLack(field: string | undefined): string | undefined {
  return useContext(LacksHere).find((lack) => lack.field === field)?.said;
}

/** The sentence beside a field at which something is wrong or missing. */
export function LackSaid({ id, said }: { readonly id: string; readonly said: string | undefined }) {
  if (said === undefined) return null;
  return (
    <p id={id}>
      <b>{said}</b>
    </p>
  );
}

/**
 * A form that says what keeps it from being stored: one thing beside its field, which takes the focus; several in a list
 * above the form, which takes the focus and leads to each field. The page's title says that there is an error.
 *
 * Assumes: the fields have these names, and stand within.
 */
export function Lacks({ of: { lacks, tries }, children }: { readonly of: Lacking; readonly children: ReactNode }) {
  const s = useScreens();
  const id = useId();
  const summary = useRef<HTMLElement>(null);
  const isWrong = lacks.length > 0;
  useEffect(() => {
    if (!isWrong) return undefined;
    const title = document.title;
    document.title = `${s.frame.error} ${title}`;
    return () => {
      document.title = title;
    };
  }, [isWrong, s]);
  useEffect(() => {
    const [first] = lacks;
    if (first === undefined) return;
    if (lacks.length === 1) toField(first.field);
    else summary.current?.focus();
    // oxlint-disable-next-line react/exhaustive-deps -- the focus moves when somebody stores, not when an answer is mended
  }, [tries]);
  return (
    <LacksHere value={lacks}>
      {lacks.length > 1 && (
        <section ref={summary} className="card ask stack tight" tabIndex={-1} aria-labelledby={id}>
          <h2 id={id}>{s.frame.lacks}</h2>
          <ul className="answers column">
            {lacks.map(({ field, said }) => (
              <li key={field}>
                <button type="button" className="press start" onClick={() => toField(field)}>
                  {said}
                </button>
              </li>
            ))}
          </ul>
        </section>
      )}
      {children}
    </LacksHere>
  );
}

/** Puts the focus where a field is answered: on what is chosen, else on its first answer. */
function toField(field: string): void {
  const asked = document.querySelector(`[data-asks="${field}"]`);
  const into =
    asked?.querySelector<HTMLElement>("input:checked") ?? asked?.querySelector<HTMLElement>("input, textarea");
  into?.focus();
}
