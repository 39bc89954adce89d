// Notes every worker that the page starts, what it is asked and what it answers. `workersFail` says what befalls it:
// "never": there is none, "refused": it can't be started, "deaf": none hears what it is asked,
// "killed once" and "killed": the first, or each, is gone as soon as it is asked.
window.workers = [];
const Real = window.Worker;
if (window.workersFail === "never") delete window.Worker;
else
  window.Worker = class extends Real {
    constructor(...given) {
      if (window.workersFail === "refused") throw new DOMException("no", "SecurityError");
      super(...given);
      this.note = { asked: [], answered: 0, ended: false };
      window.workers.push(this.note);
      this.addEventListener("message", ({ data }) => {
        if (data?.length > 0) this.note.answered += 1;
      });
    }
    postMessage(message) {
      const first = window.workers[0] === this.note;
      if (Array.isArray(message)) {
        this.note.asked.push(message[1]);
        if (window.workersFail === "deaf") return;
        if (window.workersFail === "killed" || (window.workersFail === "killed once" && first)) {
          super.terminate();
          return;
        }
      }
      super.postMessage(message);
    }
    terminate() {
      this.note.ended = true;
      super.terminate();
    }
  };
