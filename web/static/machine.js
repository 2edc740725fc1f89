// The machine in the frame: JSON in and out.
export class Machine {
  #frame;
  #heard = new Map();

  constructor(frame) {
    this.#frame = frame;
  }

  // begin hears what the frame tells, and what it has told so far.
  begin() {
    window.riddle.hear = (event) => {
      if (event.source !== this.#frame.contentWindow || event.origin !== location.origin) return;
      this.#tell(event.data.riddle, event.data);
    };
    for (const event of window.riddle.early.splice(0)) window.riddle.hear(event);
  }

  on(what, listener) { this.#heard.set(what, listener); }

  #tell(what, message) { this.#heard.get(what)?.(message); }

  get #port() { return this.#frame.contentWindow.riddle; }

  ask(what, argument = {}) { return JSON.parse(this.#port[what](JSON.stringify(argument))); }

  // text asks for something that is a text already; it is empty while the frame
  // loads itself anew.
  text(what) { return this.#port?.[what]?.() ?? ""; }

  // picture asks for the machine as a PNG file, in bytes.
  picture(how = {}) { return this.#port.picture(JSON.stringify(how)); }

  send(command) { return this.ask("do", command); }

  // listen has the machine tell its state. What goes wrong here must not stop
  // the machine, so it is reported and not thrown.
  listen() {
    this.#port.listen((text) => {
      try {
        this.#tell("state", JSON.parse(text));
      } catch (error) {
        reportError(error);
      }
    });
  }
}
