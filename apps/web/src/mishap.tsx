import { Component, type ReactNode } from "react";
import { useScreens } from "./house/use-house.tsx";
import { goTo } from "./parts/frame/address.ts";

/** The herd's database did not open: said plainly, with the one thing that helps. */
export function Shut() {
  const s = useScreens();
  return (
    <main className="page stack">
      <h1>{s.frame.notSavedUnavailable}</h1>
      <button type="button" className="press main" onClick={() => window.location.reload()}>
        {s.frame.reload}
      </button>
    </main>
  );
}

interface Mishappened {
  readonly broken: "yes" | "no";
  readonly at: string | undefined;
}

/** Catches our own mistakes at the top: says so, and that what was saved is safe. Another address (`at`) is tried anew. */
export class Mishap extends Component<{ readonly children: ReactNode; readonly at?: string }, Mishappened> {
  override state: Mishappened = { broken: "no", at: this.props.at };

  static getDerivedStateFromError(): Partial<Mishappened> {
    return { broken: "yes" };
  }

  static getDerivedStateFromProps(props: { readonly at?: string }, state: Mishappened): Mishappened | null {
    return props.at === state.at ? null : { broken: "no", at: props.at };
  }

  override render(): ReactNode {
    if (this.state.broken === "no") return this.props.children;
    return <Broken />;
  }
}

function Broken() {
  const s = useScreens();
  return (
    <main className="page stack">
      <div className="stack" role="alert">
        <h1>{s.frame.appBroken}</h1>
        <p>{s.frame.appBrokenSafe}</p>
      </div>
      <button
        type="button"
        className="press main"
        onClick={() => {
          goTo("/", { replace: true });
          window.location.reload();
        }}
      >
        {s.frame.reload}
      </button>
    </main>
  );
}
