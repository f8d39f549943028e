import type { AnimalRef } from "@pollard/advice";
import type { ReactNode } from "react";
import { Link } from "wouter";
import { SexMark } from "../../drawings/marks.tsx";
import { useScreens, words } from "../../house/use-house.tsx";

/** A goat's name with its tag, the tag in the cut where 0 and O differ. */
export function Named({ of }: { readonly of: AnimalRef }) {
  return (
    <span className="who">
      {words.label(of)}
      {of.tag !== undefined && of.name !== undefined && <span className="tag quiet">{of.tag}</span>}
    </span>
  );
}

/** One goat as a ruled line that opens it: the mark of its sex in the margin. */
export function GoatLine(props: { readonly of: AnimalRef; readonly href: string; readonly children?: ReactNode }) {
  const s = useScreens();
  return (
    <li>
      <Link href={props.href} className="row slim">
        <span className="margin">
          <SexMark sex={props.of.sex} label={s.animals.sex[props.of.sex]} />
        </span>
        <span className="body">
          <Named of={props.of} />
          {props.children !== undefined && <span>{props.children}</span>}
        </span>
      </Link>
    </li>
  );
}

/** A ruled list. */
export function Lines({ children }: { readonly children: ReactNode }) {
  return <ul className="rows">{children}</ul>;
}
