"""Cooks who do what drafthand says: its words and steps through the pipe protocol, in-process, and nothing besides.

They differ in their hands: `strict` keeps to every wait that was told, also when newer words come before it is over;
`whole` carries out the listed plan to its end before reporting; `silent` sends readings when asked to look and never
says "done"; `often` reads the dome to drafthand every five minutes and follows the newest word.
"""

import json
from typing import Any

import numpy as np
from hands import Hands as World
from makings import Making
from troubles import Trouble

from advisor.clock import SetClock
from advisor.conversation import Conversation
from advisor.rulebook.loader import Rulebook
from advisor.session import Session
from advisor.terminal.pipe import Pipe

NO_CHECK_MIN = 15.0   # a reply that asks for no look: the owner looks by himself after so long
ROUNDS_A_MINUTE = 4   # replies acted on within one minute
HANDS = ("strict", "whole", "silent", "often")
OFTEN_MIN = 5.0
PATIENCE_MIN = 15.0   # how long one who carries out the whole plan watches for a dome that a step waits for
KG, STARTER_KG = 0.7, 0.04
NOTHING_TO_DO = {"read_dome", "wait", "change_nothing", "keep_lid_shut", "stand_clear", "keep_people_away", "check_gasket",
                 "check_thermometer", "shelter_from_wind", "probe_food"}
AIR = {"set_vent", "burp_lid"}


class Cook:
    """One cooker's owner. forecasts: each made in a reply with the minute it was made, for judging later."""

    def __init__(self, rulebook: Rulebook, world: World, i: int, target_f: float, knows: dict[str, Any], hands: str,
                 forecasts: bool = True) -> None:
        self.world, self.i, self.target_f, self.hands = world, i, float(target_f), hands
        self.pipe = Pipe(Session(Conversation(rulebook, forecasts=forecasts), None, SetClock()))
        self.knows, self.answered = dict(knows), set()
        self.steps: list[dict] = []
        self.at, self.told, self.ready, self.look, self.kept = 0, 0.0, 0.0, 0.0, 0.0
        self.carried_out: list[int] = []
        self.forecasts: list[tuple[int, dict]] = []
        self.talk: list[tuple[int, dict, dict]] = []

    # -- talking --------------------------------------------------------------------------------------------------

    def send(self, line: dict) -> dict:
        """A line and its reply, whose steps are the ones that count from now on."""
        now = self.world.minute
        reply = json.loads(self.pipe.answer(json.dumps({**line, "at_min": now}).encode()))
        assert "error" not in reply, (line, reply)
        self.talk.append((now, line, reply))
        self.steps, self.at, self.told, self.ready = reply["steps"], 0, float(now), float(now)
        check = reply["check_in_min"]
        self.look = now + (NO_CHECK_MIN if check is None else max(1.0, check))
        if self.hands == "often":
            self.look = min(self.look, now + OFTEN_MIN)
        if reply["forecast"]:
            self.forecasts.append((now, reply["forecast"]))
        asks = reply["asks"]
        if asks and asks["fact"] in self.knows and asks["fact"] not in self.answered:
            self.answered.add(asks["fact"])
            return self.send({"reading": {asks["fact"]: self.knows[asks["fact"]]}})
        return reply

    def begin(self, words: str, dome_f: float) -> None:
        self.send({"say": f"dome {dome_f:.0f}, want {self.target_f:.0f}, {words}"})

    # -- one minute -----------------------------------------------------------------------------------------------

    def act(self, dome_f: float) -> None:
        """What the owner does this minute, the dome reading so."""
        if self.hands == "whole":
            return self._carry_out_all(dome_f)
        if self.world.minute >= self.look:
            self.send({"reading": {"dome_f": float(dome_f)}})
        for _ in range(ROUNDS_A_MINUTE):
            done = self._steps_due(dome_f)
            if not done or self.hands == "silent":
                return
            self.send({"done": done})

    def _carry_out_all(self, dome_f: float) -> None:
        """Go on with the plan in hand; at its end, or when a step stays out of reach, report and read the dome."""
        self.carried_out += self._steps_due(dome_f)
        through = self.at >= len(self.steps) and self.world.minute >= self.ready
        if through or self.world.minute >= max(self.ready, self.told) + PATIENCE_MIN:
            done, self.carried_out = self.carried_out, []
            if done:
                self.send({"done": done})
            self.send({"reading": {"dome_f": float(dome_f)}})

    def _steps_due(self, dome_f: float) -> list[int]:
        """Carry out the steps that are due, up to the first wait. Their numbers."""
        done = []
        minute = self.world.minute
        while self.at < len(self.steps) and minute >= self.ready:
            step = self.steps[self.at]
            wait = step.get("wait_min") or 0.0
            if step["act"] in ("wait", "change_nothing") or wait and step["act"] in NOTHING_TO_DO:
                self.ready = max(self.told, self.ready) + wait
                self.at += 1
                continue
            if not self._holds(step.get("when") or {}, dome_f):
                if step["act"] != "burp_lid":
                    break
                self.at += 1
                continue
            if self.hands == "strict" and step["act"] in AIR and minute < self.kept:
                break
            self.at += 1
            if step["act"] in NOTHING_TO_DO:
                continue
            self._do(step)
            done.append(step["n"])
            if wait:
                self.ready = self.kept = minute + wait
        return done

    def _holds(self, when: dict, dome_f: float) -> bool:
        value = {"dome_f": dome_f, "over_f": dome_f - self.target_f}
        return all(bounds.get("at_least", -np.inf) <= value[fact] <= bounds.get("at_most", np.inf)
                   for fact, bounds in when.items() if fact in value)

    def _do(self, step: dict) -> None:
        world, i, act = self.world, self.i, step["act"]
        if act == "set_vent":
            world.set_vent(i, step["vent"], step["opening"])
        elif act == "burp_lid":
            for _ in range(int(step["times"])):
                world.burp(i, float(step["crack_in"]))
        elif act == "clear_ash":
            world.clear_ash(i)
        elif act == "open_lid_slowly":
            world.lift_lid(i, slowly=True)
        elif act == "close_lid":
            world.drop_lid(i)
        elif act in ("add_fuel", "light", "stir_fuel"):
            self._under_the_lid(step)
        elif act == "shut_down":
            world.set_vent(i, "bottom", 0.0)
            world.set_vent(i, "top", 0.0)

    def _under_the_lid(self, step: dict) -> None:
        """Charcoal, a starter or a stir: the lid is up for it, down again at the next minute."""
        world, i = self.world, self.i
        if not world.lid_up[i]:
            world.lift_lid(i, slowly=True)
        if step["act"] == "add_fuel":
            world.add_fuel(i, float(step.get("fuel_kg") or KG))
        if step["act"] == "light":
            world.light(i, STARTER_KG * float(step.get("starters") or 1))


def known(trouble: Trouble, making: Making, world: World, i: int) -> dict[str, Any]:
    """What the owner of cooker i can tell when asked."""
    over = world.dial()[i] - making.target_f[i]
    return {"bottom_vent": round(float(world.bottom[i]), 2), "top_vent": round(float(world.top[i]), 2), "smoke": "thin_blue",
            "lit_ago_min": making.lit_min, "food_on": making.lit_min > 60, "fuel_level": 0.6, "ash": "light",
            "windy": False, "gasket_leaks": False, "deflector_in": True, "lid_open": False, "fire_out": False,
            "vents_moved_ago_min": making.moved_ago_min, "burn_pattern": "even", "stage":
            "cooking" if making.lit_min > 60 else "warming", "trend": "rising" if over > 50 else "steady",
            **(trouble.knows or {})}


def cooks(rulebook: Rulebook, trouble: Trouble, making: Making, world: World, hands: tuple[str, ...],
          forecasts: bool = True) -> list[Cook]:
    """The owners, each having said what is the matter."""
    made = []
    for i in range(world.n):
        cook = Cook(rulebook, world, i, making.target_f[i], known(trouble, making, world, i), hands[i % len(hands)], forecasts)
        story = trouble.says.format(lit=round(making.lit_min), hours=round(making.lit_min / 60))
        words = f"bottom vent {world.bottom[i]:.0%} open, top vent {world.top[i]:.0%} open, {story}"
        cook.begin(words.rstrip(", "), world.read()[i])
        made.append(cook)
    return made


def advise_all(rulebook: Rulebook, trouble: Trouble, making: Making, world: World, minutes: int,
               hands: tuple[str, ...] = HANDS, forecasts: bool = True) -> tuple[np.ndarray, list[Cook]]:
    """(true dome [F] (minutes + 1, n), owners) of two hours under advice."""
    owners, path = cooks(rulebook, trouble, making, world, hands, forecasts), [world.truth()]
    for _ in range(minutes):
        reads, up = world.read(), world.lid_up.copy()
        for i, owner in enumerate(owners):
            owner.act(reads[i])
        world.pass_minute()
        world.lid_up &= ~up  # a lid lifted for a job is down again after a minute
        path.append(world.truth())
    return np.array(path), owners
