import type { Access } from "./access/access.ts";
import type { Papers } from "./access/papers.ts";
import type { News } from "./news.ts";
import type { Observation } from "./observation/observation.ts";
import type { HubPhotos } from "./photos/photos.ts";
import type { Ledgers } from "./store/ledgers.ts";

/** What a hub is made of. */
export interface HubParts {
  readonly ledgers: Ledgers;
  /** Folder of the built web app. */
  readonly webRoot: string;
  /** Where what went wrong is written down, for whoever runs the hub. */
  readonly log: (text: string) => void;
  /** Whether the database answers; without it, that is taken for granted. */
  readonly isUp?: () => Promise<boolean>;
  /** What is told of requests and counts; without it, nothing. */
  readonly observation?: Observation;
  /** Who may, beside this computer; without it, nobody. */
  readonly access?: Access;
  /** What is shown outside the herd; without it, nothing. */
  readonly papers?: Papers;
  /** The pictures; without it, none are kept. */
  readonly photos?: HubPhotos;
  /** Who waits to hear that a herd has something new; without it, nobody may. */
  readonly news?: News;
  /** The address under which other devices reach the hub, as in `https://goats.example`; without it they do not. */
  readonly reach?: string;
}
