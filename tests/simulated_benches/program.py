"""The built program, worked by its command line as a person would work it."""
import json
import os
import subprocess


class Refused(Exception):
    pass


class Program:
    def __init__(self, binary, store, knowledge=None):
        self.words = [binary, "--store", store, "--json"]
        self.surroundings = dict(os.environ, XDG_DATA_HOME=store + ".home")
        if knowledge:
            self.surroundings["DRYOUT_KNOWLEDGE"] = knowledge
        self.takes_places = "--where" in self.run_plain("case", "symptom", "--help")

    def run_plain(self, *words):
        return subprocess.run([self.words[0], *words], capture_output=True, text=True, env=self.surroundings).stdout

    def run(self, *words):
        run = subprocess.run([*self.words, *map(str, words)], capture_output=True, text=True, env=self.surroundings)
        if run.returncode:
            raise Refused(f"{' '.join(map(str, words))}: {run.stderr.strip() or run.stdout.strip()}")
        return json.loads(run.stdout) if run.stdout.strip() else {}

    def open_case(self, kind, year):
        view = self.run("case", "new", "--equipment", kind, "--set", "a simulated bench", "--year", year)
        self.case = view["case"]
        return {s["id"] for s in view["symptoms"]}

    def tell(self, symptom, where):
        words = ["case", "symptom", self.case, symptom, "yes"]
        if self.takes_places:
            extra = []
            if "channel" in where:
                extra += ["--where", f"channel={where['channel']}"]
            if "follows" in where:
                extra += ["--follows", where["follows"]]
            if "rate" in where:
                extra += ["--rate", where["rate"]]
            try:
                return self.run(*words, *extra)
            except Refused:
                pass  # the equipment has no such place: the bare symptom
        return self.run(*words)

    def advice(self):
        return self.run("next", self.case)

    def suspects(self):
        return self.run("suspects", self.case)

    def look(self, advised, outcome):
        name = f"{advised['check']}@{advised['place']}"
        if advised["dangerous"] and not advised["acknowledged"]:
            self.run("case", "heed", self.case, name)
        for access in advised["opens"]:
            self.run("case", "open", self.case, access)
        return self.run("case", "outcome", self.case, name, outcome)

    def mend(self, suspect, symptoms, cured):
        action = "replaced"
        self.run("case", "repair", self.case, suspect, action)
        for symptom in symptoms:
            self.run("case", "retest", self.case, symptom, *([] if cured else ["--still-there"]))
