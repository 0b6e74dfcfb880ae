"""A bad line between a client and its homeserver: passes requests on, and spoils some of them.

Reads one JSON order a line from standard input: {"storm": 0.3, "seed": 7} spoils three requests in ten, {"storm": 0} none.
Answers each with how many of which kind were spoilt so far.
"""

import asyncio
import json
import random
import sys

from aiohttp import ClientError, ClientSession, ClientTimeout, TCPConnector, web
from yarl import URL

KINDS = ["slow", "ration", "gateway", "garbage", "empty", "cut before", "cut after", "cut within", "repeat"]


class Line:
    def __init__(self, target):
        self.target = target
        self.storm = 0.0
        self.random = random.Random(0)
        self.spoilt = dict.fromkeys(KINDS, 0)
        self.passed = 0
        self.last_sync = None
        self.coming = []

    async def pass_on(self, request, body):
        headers = {name: value for name, value in request.headers.items()
                   if name.lower() not in ("host", "accept-encoding", "content-length", "transfer-encoding")}
        url = URL(self.target + request.raw_path, encoded=True)
        async with self.client.request(request.method, url, headers=headers, data=body) as answer:
            return answer.status, answer.content_type, await answer.read()

    def fault(self, is_sync):
        """Each kind in turn, in an order of chance; a repetition as soon as there is something to repeat."""
        if not self.coming:
            self.coming = self.random.sample(KINDS, len(KINDS))
        fits = [kind for kind in self.coming if kind != "repeat" or (is_sync and self.last_sync is not None)]
        kind = fits[0] if fits else "slow"
        if kind in self.coming:
            self.coming.remove(kind)
        return kind

    async def serve(self, request):
        body = await request.read()
        is_sync = request.path.endswith("/sync")
        kind = self.fault(is_sync) if self.random.random() < self.storm else None
        if kind is None:
            self.passed += 1
        else:
            self.spoilt[kind] += 1
        if kind == "slow":
            await asyncio.sleep(self.random.uniform(0.05, 1.0))
        elif kind == "ration":
            wait = self.random.randrange(50, 400)
            return web.json_response({"errcode": "M_LIMIT_EXCEEDED", "error": "Too many", "retry_after_ms": wait}, status=429)
        elif kind == "gateway":
            return web.Response(status=self.random.choice([500, 502, 503, 504]), text="<html>Bad gateway</html>",
                                content_type="text/html")
        elif kind == "garbage":
            return web.Response(text='{"next_batch": "s1_2", "rooms": [', content_type="application/json")
        elif kind == "empty":
            return web.Response(text="", content_type="application/json")
        elif kind == "cut before":
            return self.cut(request)
        elif kind == "repeat":
            status, content_type, answer = self.last_sync
            return web.Response(status=status, body=answer, content_type=content_type)
        try:
            status, content_type, answer = await self.pass_on(request, body)
        except ClientError:
            return web.Response(status=502, text="nobody there")
        if is_sync and status == 200:
            self.last_sync = status, content_type, answer
        if kind == "cut after":
            return self.cut(request)
        if kind == "cut within":
            response = web.StreamResponse(status=status, headers={"Content-Length": str(len(answer))})
            response.content_type = content_type
            await response.prepare(request)
            await response.write(answer[:len(answer) // 2])
            return self.cut(request)
        return web.Response(status=status, body=answer, content_type=content_type)

    @staticmethod
    def cut(request):
        if request.transport is not None:
            request.transport.abort()
        return web.Response()

    async def obey(self):
        loop = asyncio.get_running_loop()
        while words := await loop.run_in_executor(None, sys.stdin.readline):
            order = json.loads(words)
            self.storm = order["storm"]
            if "seed" in order:
                self.random = random.Random(order["seed"])
            print(json.dumps({"spoilt": self.spoilt, "passed": self.passed}), flush=True)


async def main():
    port, target = sys.argv[1:]
    line = Line(target)
    line.client = ClientSession(timeout=ClientTimeout(total=90), connector=TCPConnector(limit=0), auto_decompress=True)
    app = web.Application(client_max_size=64 << 20)
    app.router.add_route("*", "/{path:.*}", line.serve)
    runner = web.AppRunner(app, access_log=None)
    await runner.setup()
    await web.TCPSite(runner, "127.0.0.1", int(port)).start()
    print(json.dumps({"ready": True}), flush=True)
    await line.obey()


asyncio.run(main())
