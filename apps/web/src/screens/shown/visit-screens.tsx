import { Suspense } from "react";
import { Route, Switch } from "wouter";
import { JoinScreen, VisitDoneScreen, VisitsScreen } from "../../desk-screens-later.ts";
import { HolderScreen } from "../holder/view.tsx";
import { Nowhere } from "../nowhere/view.tsx";

/** All that a vet's phone shows: the lists, and what was done. */
export function VisitScreens() {
  return (
    <Suspense fallback={null}>
      <Switch>
        <Route path="/">
          <VisitsScreen />
        </Route>
        <Route path="/visit/:day/:kid">{({ day, kid }) => <VisitDoneScreen key={kid} day={day} kid={kid} />}</Route>
        <Route path="/join/:code?">{({ code }) => <JoinScreen code={code} />}</Route>
        <Route path="/holder">
          <HolderScreen />
        </Route>
        <Route>
          <Nowhere />
        </Route>
      </Switch>
    </Suspense>
  );
}
