"""The settings, read once: environment variables PEGLINE_..., and a .env file beside the working folder."""

import re
from typing import Annotated, Literal
from urllib.parse import unquote, urlsplit

from pydantic import Field, ValidationError, model_validator
from pydantic_settings import BaseSettings, SettingsConfigDict

Rate = Annotated[float, Field(gt=0, le=1000)]


class Settings(BaseSettings):
    """Where the book is, and which wires are switched on: SMS where its url is set, Telegram where its token is."""

    model_config = SettingsConfigDict(env_prefix="PEGLINE_", env_file=".env", extra="ignore")

    database_url: Annotated[str, Field(pattern=r"^(sqlite|postgresql)(\+\w+)?://")] = "sqlite:///.pegline/pegline.sqlite"
    programme: str | None = None  # file loaded into an empty book
    log_level: Literal["DEBUG", "INFO", "WARNING", "ERROR"] = "INFO"
    log_format: Literal["console", "json"] = "console"
    log_secret: str = ""  # keys the hash that stands for a number in the log; without it a run matches only itself

    host: str = "127.0.0.1"
    port: Annotated[int, Field(ge=1, le=65535)] = 8200
    own_url: str = ""  # how gateways reach this process; http://host:port where it is not set
    region: str | None = None  # country of numbers written without one, ISO 3166; the programme's where it is not set
    unsure_s: float = 60.0  # how long a report is waited for before a text is sent again whose answer was lost

    sms_url: str | None = None  # sendsms address of the gateway
    sms_user: str = ""
    sms_password: str = ""
    sms_key: str = ""  # shared with the gateway: what comes without it is not believed
    sms_from: str = ""
    sms_rate: Rate = 10.0  # texts a second
    sms_timeout_s: float = 10.0  # for the gateway's answer
    sms_order_s: float = 20.0  # how long the next text to somebody waits for the report that the network has the one before
    sms_pieces_s: float = 600.0  # the other pieces of a long text have this long to come

    telegram_token: str | None = None
    telegram_api: str = "https://api.telegram.org"
    telegram_webhook: str | None = None  # public address; without it the bot polls
    telegram_secret: str = ""
    telegram_rate: Rate = 25.0

    @model_validator(mode="after")
    def _whole(self):
        if self.sms_url and not self.sms_key:
            raise ValueError("sms_url needs sms_key, the secret shared with the gateway")
        if self.telegram_webhook and not self.telegram_secret:
            raise ValueError("telegram_webhook needs telegram_secret")
        if not re.fullmatch(r"[A-Za-z0-9_-]{0,256}", self.telegram_secret):
            raise ValueError("telegram_secret may hold letters, digits, _ and - only")
        self.own_url = (self.own_url or f"http://{self.host}:{self.port}").rstrip("/")
        return self

    def secrets(self):
        """What no log may show."""
        held = (self.telegram_token, self.telegram_secret, self.sms_password, self.sms_key, self.log_secret, _password(self.database_url))
        return tuple(filter(None, held))


class Wrong(ValueError):
    """Settings that cannot be used, and every reason; none quotes a value, which may be a secret."""


def read():
    """Return the settings, or raise Wrong."""
    try:
        return Settings()
    except ValidationError as fault:
        told = [f"{'PEGLINE_' + str(error['loc'][0]).upper() if error['loc'] else 'settings'}: {error['msg']}" for error in fault.errors()]
        raise Wrong("settings refused:\n  " + "\n  ".join(told)) from None


def _password(url):
    """The password in the address of a database, or None."""
    return unquote(urlsplit(url).password or "") or None
