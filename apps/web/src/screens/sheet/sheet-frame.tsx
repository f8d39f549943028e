import { sheetHtml, type SheetDocument } from "@pollard/advice";
import { type RefObject, useEffect, useRef, useState } from "react";
import { type SheetParts, sheetParts, sheetWidth } from "./model.ts";

/**
 * The sheet in a page of its own, made smaller until it fits: what is seen is what prints.
 *
 * The sheet's style is handed over as an object: the hub lets no page take style from text.
 */
export function SheetFrame(props: {
  readonly sheet: SheetDocument;
  readonly title: string;
  readonly frame: RefObject<HTMLIFrameElement | null>;
}) {
  const { sheet, frame } = props;
  const around = useRef<HTMLDivElement>(null);
  const [ready, setReady] = useState<"blank" | "loaded">("blank");
  const [fit, setFit] = useState({ scale: 1, height: 400 });
  const width = sheetWidth(sheet);
  useEffect(() => {
    const page = frame.current;
    const inner = page?.contentDocument;
    if (ready === "blank" || !page || !inner) return undefined;
    show(inner, sheetParts(sheetHtml(sheet)));
    const measure = (): void =>
      setFit({
        scale: Math.min(1, (around.current?.clientWidth ?? width) / width),
        height: inner.documentElement.scrollHeight,
      });
    measure();
    window.addEventListener("resize", measure);
    return () => window.removeEventListener("resize", measure);
  }, [ready, sheet, width, frame]);
  return (
    <div className="paper" ref={around} style={{ height: Math.ceil(fit.height * fit.scale), maxWidth: width }}>
      <iframe
        ref={frame}
        title={props.title}
        // As high as what it holds: there is nothing in it to press or to scroll, so the keys pass it by.
        tabIndex={-1}
        srcDoc="<!doctype html><title>Pollard</title>"
        width={width}
        height={fit.height}
        style={{ transform: `scale(${fit.scale})` }}
        onLoad={() => setReady("loaded")}
      />
    </div>
  );
}

/** Puts a whole page into a blank one. */
function show(blank: Document, { rules, html }: SheetParts): void {
  const page = new DOMParser().parseFromString(html, "text/html");
  const view = blank.defaultView;
  if (view === null) return;
  blank.documentElement.lang = page.documentElement.lang;
  blank.title = page.title;
  blank.body.replaceChildren(...Array.from(page.body.childNodes, (node) => blank.importNode(node, true)));
  // Head and foot of a paper are no landmarks of the screen it is shown on.
  for (const part of blank.querySelectorAll("header, footer")) part.setAttribute("role", "none");
  const style = new view.CSSStyleSheet();
  style.replaceSync(rules);
  blank.adoptedStyleSheets = [style];
  for (const part of blank.querySelectorAll<HTMLElement>("[data-css]")) part.style.cssText = part.dataset["css"] ?? "";
}
