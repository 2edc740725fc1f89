// The machine in the frame: messages go out, and are answered later. Nothing else
// is known here of where it is.
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
      const { riddle, ...message } = event.data;
      this.#tell(riddle, message);
    };
    for (const event of window.riddle.early.splice(0)) window.riddle.hear(event);
  }

  on(what, listener) { this.#heard.set(what, listener); }

  #tell(what, message) { this.#heard.get(what)?.(message); }

  get #port() { return this.#frame.contentWindow.riddle; }

  // ask sends a message and promises its answer: web/bridge/messages.go lists
  // them. Answers come in the order of the messages. While the frame loads itself
  // anew there is none; the page is told when the next machine is ready.
  ask(what, more = {}) {
    return new Promise((answer) => {
      this.#port?.ask(JSON.stringify({ do: what, ...more }), (text, bytes) => answer(bytes ?? JSON.parse(text)));
    });
  }

  // send sends a command that is made already.
  send({ do: what, ...more }) { return this.ask(what, more); }

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
