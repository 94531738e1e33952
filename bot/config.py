"""The settings, read once: environment variables PEGLINE_..., and a .env file beside the working folder."""

import re
from typing import Literal

from pydantic import model_validator
from pydantic_settings import BaseSettings, SettingsConfigDict


class Settings(BaseSettings):
    """Where the book is, and which wires are switched on: SMS where its url is set, Telegram where its token is."""

    model_config = SettingsConfigDict(env_prefix="PEGLINE_", env_file=".env", extra="ignore")

    database_url: str = "sqlite:///.pegline/pegline.sqlite"
    programme: str | None = None  # file loaded into an empty book
    log_level: Literal["DEBUG", "INFO", "WARNING", "ERROR"] = "WARNING"
    log_format: Literal["console", "json"] = "console"
    log_secret: str = ""  # keys the hash that stands for a number in the log

    host: str = "127.0.0.1"
    port: int = 8200
    own_url: str = ""  # how gateways reach this process; http://host:port where it is not set
    region: str = "KE"  # country of numbers written without one, ISO 3166

    sms_url: str | None = None  # sendsms address of the gateway
    sms_user: str = ""
    sms_password: str = ""
    sms_key: str = ""  # shared with the gateway: what comes without it is not believed
    sms_from: str = ""
    sms_rate: float = 10.0  # texts a second

    telegram_token: str | None = None
    telegram_api: str = "https://api.telegram.org"
    telegram_webhook: str | None = None  # public address; without it the bot polls
    telegram_secret: str = ""
    telegram_rate: float = 25.0

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
