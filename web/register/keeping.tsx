/** Keeping the workroom safe: backups on this machine, the whole of it as one archive, suit files brought in, and the bin. */
import { useState } from "preact/hooks";
import type { BackupView, BinView, Restored } from "../api/types.js";
import { post, remove } from "../lib/api.js";
import { momentInWords } from "../lib/dates.js";
import { go } from "../lib/router.js";
import { Acts, Ticket, Word } from "../parts/touch.js";
import { Trouble } from "../parts/trouble.js";
import { API, sendBytes, useLoaded, useTrying } from "./asking.js";
import { Pick, TakeFile } from "./fields.js";
import { ReallyDelete } from "./shell.js";

/** All four. */
export function Keeping() {
  return (
    <>
      <Backups />
      <Archive />
      <SuitFile />
      <Bin />
    </>
  );
}

/** What was taken out: put back, or deleted for good. */
function Bin() {
  const bin = useLoaded<readonly BinView[]>(`${API}/bin`, { follow: true });
  const trying = useTrying();
  const [said, setSaid] = useState("");
  const [asking, setAsking] = useState<string | null>(null);
  return (
    <>
      <h3 class="apart">The bin</h3>
      {bin.value?.length === 0 && said === "" && <p class="small">Nothing lies in it. What you take out comes here; a wearer is deleted at once.</p>}
      <p class="small" role="status">
        {said}
      </p>
      <Trouble problem={trying.problem ?? bin.problem} />
      <ul class="shelflist" aria-label="In the bin">
        {(bin.value ?? []).map((one) => {
          const name = one.name === "" ? one.about : one.name;
          return (
            <li key={one.id}>
              <div class="folded">
                <b>{name}</b>
                <span class="small">
                  {one.name === "" ? "" : `${one.about}, `}since <time dateTime={one.since}>{momentInWords(one.since)}</time>
                </span>
                {asking !== one.id && (
                  <>
                    <Word
                      onClick={() =>
                        void trying.run(async () => {
                          await post(`${API}/documents/${encodeURIComponent(one.id)}/restore`, {});
                          setSaid(`${name} is back.`);
                          await bin.again();
                        })
                      }
                    >
                      Put it back<span class="heard">: {name}</span>
                    </Word>
                    <Word onClick={() => setAsking(one.id)}>
                      Delete it for good<span class="heard">: {name}</span>
                    </Word>
                  </>
                )}
              </div>
              {asking === one.id && (
                <ReallyDelete
                  name={name}
                  goes={[
                    one.kind === "suit" ? "Its history, its versions and its photos; its pattern holds a body’s dimensions." : "Its history and its photos.",
                    "The same in every backup of this workroom. What was printed or exported stays where it is.",
                    "This cannot be taken back.",
                  ]}
                  onDelete={async () => {
                    const done = await remove<{ readonly says?: string } | undefined>(`${API}/bin/${encodeURIComponent(one.id)}`);
                    setSaid(done?.says ?? "It is deleted.");
                    setAsking(null);
                    await bin.again();
                  }}
                  onLeave={() => setAsking(null)}
                />
              )}
            </li>
          );
        })}
      </ul>
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
      {mode === "replace" && <p class="reading">Everything here goes. It is kept as a backup first, which can be put back above.</p>}
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
