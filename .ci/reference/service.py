"""Requests to the service, and the comparison of its answers."""

import http.client
import json
import math

from units import factor


class Service:
    """One kept connection to a server."""

    def __init__(self, address):
        self.connection = http.client.HTTPConnection(address, timeout=30)

    def get(self, path):
        self.connection.request("GET", path)
        return json.loads(self.connection.getresponse().read())

    def post(self, operation, request):
        body = json.dumps(request)
        self.connection.request("POST", "/v1/" + operation, body, {"Content-Type": "application/json"})
        answer = self.connection.getresponse()
        text = answer.read()
        if answer.status != 200:
            return {"status": answer.status, "body": text.decode()}
        return json.loads(text)


class Near:
    """A number, and how large the terms were whose difference it is: the service
    takes what is below 1e-9 of them for nothing."""

    def __init__(self, value, terms=0.0):
        self.value, self.terms = float(value), abs(float(terms))


class Tally:
    """What was compared for one operation."""

    def __init__(self):
        self.requests = self.refused = self.numbers = self.words = 0
        self.worst = 0.0
        self.failures = []

    def compare(self, answer, expected, request):
        self.requests += 1
        if "body" in answer:  # none of the requests is one to refuse
            self.refused += 1
            self.failures.append("%(status)d %(body)s" % answer + "\n  " + json.dumps(request))
            return
        for pointer, want in expected.items():
            try:
                problem = self._differs(_follow(answer, pointer), want)
            except (KeyError, IndexError, TypeError):
                problem = None if want is None else "missing, want %r" % (getattr(want, "value", want),)
            if problem:
                self.failures.append("%s: %s\n  %s" % (pointer, problem, json.dumps(request)))

    def _differs(self, got, want):
        if not isinstance(want, (Near, float)):
            self.words += 1
            return None if got == want else "%r, want %r" % (got, want)
        near = want if isinstance(want, Near) else Near(want)
        value, scale = near.value, 1.0
        if isinstance(got, dict):
            scale = factor(got["unit"])
            value /= scale
            got = got["value"]
        self.numbers += 1
        off = abs(got - value)
        # Half a unit of the sixth digit, and what doubles lose on the way.
        allowed = 0.5000001 * 10 ** (math.floor(math.log10(abs(value))) - 5) if value else 0.0
        if off > allowed + 2e-9 * near.terms / scale:
            return "%r, want %.9g" % (got, value)
        if abs(value) > 1e-6 * near.terms / scale:
            self.worst = max(self.worst, off / abs(value))
        return None


def _follow(answer, pointer):
    for step in pointer.split("/"):
        answer = answer[int(step)] if isinstance(answer, list) else answer[step]
    return answer


def clear(x, limit, slack=1e-7):
    """Whether x is so far from a limit that rounding cannot decide."""
    return abs(x - limit) > slack * max(abs(limit), 1e-12)
