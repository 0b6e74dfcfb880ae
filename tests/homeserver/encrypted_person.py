"""A member of the household whose client encrypts: matrix-nio, no code of which the assistant shares but the ratchets.

Reads one JSON order a line from standard input and answers each with one JSON line on standard output.
"""

import asyncio
import json
import sys

import nio
from nio.crypto import decrypt_attachment
from signedjson.key import decode_verify_key_bytes
from signedjson.sign import verify_signed_json
from unpaddedbase64 import decode_base64


class Person(nio.AsyncClient):
    """Holds room keys back while told to."""

    def __init__(self, *args, **kwargs):
        super().__init__(*args, **kwargs)
        self.hold = False
        self.held = []

    async def _send(self, kind, method, path, data=None, response_data=None, *args, **kwargs):
        if self.hold and "sendToDevice/m.room.encrypted" in path:
            self.held.append((kind, method, path, data, response_data))
            room, users = response_data
            return nio.ShareGroupSessionResponse(room, users)
        return await super()._send(kind, method, path, data, response_data, *args, **kwargs)

    async def release(self):
        self.hold = False
        for order in self.held:
            await super()._send(*order)
        self.held = []


def good(response):
    if isinstance(response, nio.ErrorResponse):
        raise RuntimeError(str(response))
    return response


class Household:
    def __init__(self, address, user, password, folder):
        config = nio.AsyncClientConfig(store_sync_tokens=False)
        self.client = Person(address, user, store_path=folder, config=config)
        self.password = password
        self.heard = []
        self.locked = {}
        self.client.add_event_callback(self.take, nio.Event)

    async def take(self, room, event):
        if isinstance(event, nio.MegolmEvent):
            # Its key may come later; it is looked for again at each order to tell what was heard.
            self.locked[event.event_id] = event
            return
        self.note(room.room_id, event, getattr(event, "decrypted", False))

    def note(self, room, event, decrypted):
        source = event.source
        self.heard.append({"room": room, "event": event.event_id, "sender": event.sender, "type": source.get("type"),
                           "content": source.get("content"), "encrypted": decrypted})

    async def start(self):
        good(await self.client.login(self.password))
        if self.client.should_upload_keys:
            good(await self.client.keys_upload())
        self.syncing = asyncio.create_task(self.client.sync_forever(timeout=2000, full_state=True))
        await self.client.synced.wait()

    async def do(self, order):
        client, do = self.client, order["do"]
        if do == "room":
            encryption = {"type": "m.room.encryption", "state_key": "",
                          "content": {"algorithm": "m.megolm.v1.aes-sha2"}}
            made = good(await client.room_create(invite=order["invite"], preset=nio.RoomPreset.private_chat,
                                                 initial_state=[encryption]))
            while made.room_id not in client.rooms or not client.rooms[made.room_id].encrypted:
                await client.synced.wait()
            return {"room": made.room_id}
        if do == "say":
            room = order["room"]
            # Whoever joined since must be known as a recipient.
            while order["to"] not in client.rooms[room].users:
                await client.synced.wait()
            while client.should_query_keys:
                good(await client.keys_query())
            if order.get("new_key"):
                client.invalidate_outbound_session(room)
            client.hold = bool(order.get("hold"))
            sent = good(await client.room_send(room, order.get("type", "m.room.message"), order["content"],
                                               tx_id=order.get("transaction"), ignore_unverified_devices=True))
            if client.hold:
                # Later ones use another key, which is not held.
                client.hold = False
                client.invalidate_outbound_session(room)
            return {"event": sent.event_id}
        if do == "release":
            await client.release()
            return {}
        if do == "forget":
            client.held = []
            return {}
        if do == "redact":
            good(await client.room_redact(order["room"], order["event"]))
            return {}
        if do == "heard":
            for event in list(self.locked.values()):
                try:
                    opened = client.decrypt_event(event)
                except nio.EncryptionError:
                    continue
                del self.locked[event.event_id]
                self.note(event.room_id, opened, True)
            return {"heard": self.heard, "locked": list(self.locked)}
        if do == "open":
            file = order["file"]
            locked = good(await client.download(file["url"])).body
            opened = decrypt_attachment(locked, file["key"]["k"], file["hashes"]["sha256"], file["iv"])
            return {"bytes": opened.hex()}
        if do == "trust":
            return {"signed": await self.is_signed(order["user"])}
        raise RuntimeError("unknown order")

    async def is_signed(self, user):
        """Whether each of a user's devices is signed by the user's own identity: checked with the published keys alone."""
        body = json.dumps({"device_keys": {user: []}})
        headers = {"Authorization": f"Bearer {self.client.access_token}"}
        url = f"{self.client.homeserver}/_matrix/client/v3/keys/query"
        async with self.client.client_session.post(url, data=body, headers=headers) as response:
            keys = await response.json()
        master, signing = keys["master_keys"][user], keys["self_signing_keys"][user]
        verify(signing, user, master)
        devices = keys["device_keys"][user]
        for device in devices.values():
            verify(device, user, signing)
        return len(devices)


def verify(signed, user, by):
    (name, key), = by["keys"].items()
    verify_signed_json(signed, user, decode_verify_key_bytes(name, decode_base64(key)))


async def main():
    address, user, password, folder = sys.argv[1:]
    household = Household(address, user, password, folder)
    await household.start()
    print(json.dumps({"ready": True}), flush=True)
    loop = asyncio.get_running_loop()
    while line := await loop.run_in_executor(None, sys.stdin.readline):
        try:
            answer = await household.do(json.loads(line))
        except Exception as error:  # told to the test, which fails with it
            answer = {"error": f"{type(error).__name__}: {error}"}
        print(json.dumps(answer), flush=True)


asyncio.run(main())
