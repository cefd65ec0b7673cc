/** A tablet on the same network: its code, as digits and as a square to photograph, and the ones that were let in. */
import { useEffect, useState } from "preact/hooks";
import { post, remove } from "../lib/api.js";
import { go, place } from "../lib/router.js";
import { Acts, Ticket, Word } from "../parts/touch.js";
import { Trouble } from "../parts/trouble.js";
import { API, useLoaded, useTrying } from "./asking.js";
import { momentInWords } from "../lib/dates.js";
import { TextField } from "./fields.js";
import { Page } from "./shell.js";
import type { SettingsView } from "../api/types.js";

interface Code {
  readonly code: string;
  readonly expires_in_s: number;
  readonly address: string;
  /** SVG path of unit squares, and the side with its quiet zone. */
  readonly qr: string;
  readonly size: number;
  readonly devices: readonly { readonly id: string; readonly name: string; readonly last_seen: string }[];
}

/** In the workroom. Only the machine the studio runs on may let others in. */
export function Pairing({ settings }: { readonly settings: SettingsView | null }) {
  const [asked, setAsked] = useState(false);
  const pairing = useLoaded<Code>(settings?.lan ? `${API}/pairing` : null);
  const trying = useTrying();
  const { value } = pairing;
  useEffect(() => {
    if (!value || !asked) return;
    const over = setTimeout(() => void pairing.again(), Math.max(1, value.expires_in_s) * 1000);
    return () => clearTimeout(over);
  }, [value, asked]);
  if (!settings) return null;
  if (!settings.lan) {
    return (
      <p class="reading">
        The studio answers this machine alone. To work on a tablet, end it and start it with <code>slackwater studio --lan</code>.
      </p>
    );
  }
  if (!value) {
    return (
      <>
        <p class="reading">Others are let in from the machine the studio runs on.</p>
        <Trouble problem={pairing.problem} />
      </>
    );
  }
  return (
    <>
      {asked ? (
        <div class="pairing">
          <svg class="qr" viewBox={`0 0 ${value.size} ${value.size}`} role="img" aria-label={`Square to photograph; it leads to ${value.address}`}>
            <rect width={value.size} height={value.size} fill="#fff" />
            <path d={value.qr} fill="#000" />
          </svg>
          <div>
            <p class="reading">Photograph the square with the tablet, or open</p>
            <p class="address">{value.address}/pair</p>
            <p class="reading">and write this code there:</p>
            <p class="code" aria-label={value.code.split("").join(" ")}>
              {value.code}
            </p>
            <Acts>
              <Word
                onClick={() => {
                  setAsked(false);
                  void pairing.again();
                }}
              >
                Put it away
              </Word>
            </Acts>
          </div>
        </div>
      ) : (
        <Acts>
          <Word
            onClick={() => {
              setAsked(true);
              void pairing.again();
            }}
          >
            Let a tablet in
          </Word>
        </Acts>
      )}
      {value.devices.length > 0 && (
        <ul class="shelflist">
          {value.devices.map((device) => (
            <li key={device.id} class="folded">
              <h3>{device.name}</h3>
              <span class="small">
                last here <time dateTime={device.last_seen}>{momentInWords(device.last_seen)}</time>
              </span>
              <Word
                onClick={() =>
                  void trying.run(async () => {
                    await remove(`${API}/pairing/${encodeURIComponent(device.id)}`);
                    await pairing.again();
                  })
                }
              >
                Shut out<span class="heard"> {device.name}</span>
              </Word>
            </li>
          ))}
        </ul>
      )}
      <Trouble problem={trying.problem} />
    </>
  );
}

/** `/pair`, on the tablet: the code and a name for it. The square brings the code along. */
export function PairPage() {
  const [code, setCode] = useState(place.value.hash);
  const [name, setName] = useState("Tablet");
  const trying = useTrying();
  const pair = (): void =>
    void trying.run(async () => {
      await post(`${API}/pairing`, { code: code.trim(), name: name.trim() });
      go("/", { replace: true });
    });
  return (
    <Page title="Come in" lead="Write the code the workroom shows." marks={[]}>
      <form
        class="startform"
        aria-label="Come in"
        onSubmit={(event) => {
          event.preventDefault();
          pair();
        }}
      >
        <TextField label="Code" text={code} problem={trying.problem} onText={setCode} onKeep={pair} />
        <TextField label="What this screen is called" text={name} onText={setName} onKeep={pair} />
        <Acts>
          <Ticket type="submit">Come in</Ticket>
        </Acts>
      </form>
    </Page>
  );
}
