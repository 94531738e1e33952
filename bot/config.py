"""The settings, read once: environment variables PEGLINE_..., and a .env file beside the working folder."""

from typing import Literal

from pydantic_settings import BaseSettings, SettingsConfigDict


class Settings(BaseSettings):
    """database_url: where the book is; programme: file loaded into an empty book; log_level: how much is logged."""

    model_config = SettingsConfigDict(env_prefix="PEGLINE_", env_file=".env", extra="ignore")

    database_url: str = "sqlite:///.pegline/pegline.sqlite"
    programme: str | None = None
    log_level: Literal["DEBUG", "INFO", "WARNING", "ERROR"] = "WARNING"
