/** Keeping the workroom safe: backups on this machine, the whole of it as one archive, and suit files brought in. */
import { useState } from "preact/hooks";
import type { BackupView, Restored } from "../api/types.js";
import { post } from "../lib/api.js";
import { momentInWords } from "../lib/dates.js";
import { go } from "../lib/router.js";
import { Acts, Ticket, Word } from "../parts/touch.js";
import { Trouble } from "../parts/trouble.js";
import { API, sendBytes, useLoaded, useTrying } from "./asking.js";
import { Pick, TakeFile } from "./fields.js";

/** All three. */
export function Keeping() {
  return (
    <>
      <Backups />
      <Archive />
      <SuitFile />
    </>
  );
}

function Backups() {
  const backups = useLoaded<readonly BackupView[]>(`${API}/backups`);
  const trying = useTrying();
  const [said, setSaid] = useState("");
  const [asking, setAsking] = useState<string | null>(null);
  return (
    <>
      <h3>Backups</h3>
      <p class="reading">One is made each day the studio runs. Before one is put back, the workroom is kept as it is.</p>
      <Acts>
        <Word
          onClick={() =>
            void trying.run(async () => {
              await post(`${API}/backups`, {});
              setSaid("One was made.");
              await backups.again();
            })
          }
        >
          Make one now
        </Word>
        <span class="small" role="status">
          {said}
        </span>
      </Acts>
      <Trouble problem={trying.problem ?? backups.problem} />
      {backups.value?.length === 0 && <p class="small">None was made yet.</p>}
      <ul class="shelflist">
        {(backups.value ?? []).map((backup) => (
          <li key={backup.name}>
            <div class="folded">
              <b>
                <time dateTime={backup.at}>{momentInWords(backup.at)}</time>
              </b>
              <span class="small">{backup.says}</span>
              {asking !== backup.name && (
                <Word onClick={() => setAsking(backup.name)}>
                  Put it back<span class="heard">, the copy of {momentInWords(backup.at)}</span>
                </Word>
              )}
            </div>
            {asking === backup.name && (
              <div class="really">
                <p class="reading">Everything becomes as it was then. What is here now is kept as a backup first.</p>
                <Acts>
                  <Ticket
                    onClick={() =>
                      void trying.run(async () => {
                        const { says, before } = await post<Restored>(`${API}/backups/${encodeURIComponent(backup.name)}/restore`, {});
                        setSaid(`${says} What was there before is kept: the copy of ${momentInWords(before.at)}.`);
                        setAsking(null);
                        await backups.again();
                      })
                    }
                  >
                    Put it back
                  </Ticket>
                  <Word onClick={() => setAsking(null)}>Leave it</Word>
                </Acts>
              </div>
            )}
          </li>
        ))}
      </ul>
    </>
  );
}

function Archive() {
  const [mode, setMode] = useState<"add" | "replace">("add");
  const [said, setSaid] = useState("");
  const trying = useTrying();
  return (
    <>
      <h3 class="apart">The whole workroom</h3>
      <p class="reading">One file with every suit, wearer, cloth and photo: to move to another machine, or to lay by.</p>
      <Acts>
        <Word href={`${API}/archive`} save="">
          Take it as a file
        </Word>
      </Acts>
      <Pick
        name="Bringing one in"
        options={[
          { value: "add", says: "Adds to what is here" },
          { value: "replace", says: "Replaces all that is here" },
        ]}
        value={mode}
        onPick={setMode}
      />
      <Acts>
        <TakeFile
          says={mode === "add" ? "Bring one in" : "Bring one in instead of this workroom"}
          accept=".zip,application/zip"
          onFile={(file) =>
            void trying.run(async () => {
              setSaid("");
              const done = await sendBytes<{ readonly says?: string } | null>(`${API}/archive?mode=${mode}`, file, "application/zip");
              setSaid(done?.says ?? "It was brought in.");
            })
          }
        />
        <span class="small" role="status">
          {trying.busy ? "Being read." : said}
        </span>
      </Acts>
      <Trouble problem={trying.problem} />
    </>
  );
}

function SuitFile() {
  const trying = useTrying();
  return (
    <>
      <h3 class="apart">A suit file</h3>
      <p class="reading">The text file the command line reads. It comes in as a new suit, with its wearer and cloths.</p>
      <Acts>
        <TakeFile
          says="Bring a suit file in"
          accept=".toml,text/plain"
          onFile={(file) =>
            void trying.run(async () => {
              const made = await sendBytes<{ readonly id: string }>(`${API}/suits/import`, await file.text(), "text/plain; charset=utf-8");
              go(`/suits/${encodeURIComponent(made.id)}`);
            })
          }
        />
      </Acts>
      <Trouble problem={trying.problem} />
    </>
  );
}
