"""The tables of the logbook, as SQLAlchemy knows them. The schema itself is made by migrations/."""

import sqlalchemy as sa

metadata = sa.MetaData(naming_convention={
    "ix": "ix_%(table_name)s_%(column_0_N_name)s", "uq": "uq_%(table_name)s_%(column_0_N_name)s",
    "ck": "ck_%(table_name)s_%(constraint_name)s", "fk": "fk_%(table_name)s_%(column_0_name)s",
    "pk": "pk_%(table_name)s"})

Id = sa.BigInteger().with_variant(sa.Integer, "sqlite")  # SQLite numbers rows by itself only under INTEGER
PROBES, VENTS, ORIGINS = ("dome", "grate", "meat", "ambient"), ("bottom", "top"), ("said", "measured", "imported")


def _id() -> sa.Column:
    return sa.Column("id", Id, primary_key=True)


def _of_cook() -> sa.Column:
    return sa.Column("cook_id", Id, sa.ForeignKey("cook.id", ondelete="CASCADE"), nullable=False)


def _at() -> sa.Column:
    return sa.Column("at_ms", sa.BigInteger, nullable=False)


def _one_of(column: str, names: tuple[str, ...]) -> sa.CheckConstraint:
    return sa.CheckConstraint(f"{column} IN ({', '.join(repr(name) for name in names)})", name=column)


talk = sa.Table(
    "talk", metadata, _id(),
    sa.Column("epoch_ms", sa.BigInteger, nullable=False),
    sa.Column("opened_ms", sa.BigInteger, nullable=False),
    sa.Column("closed_ms", sa.BigInteger),
    sa.Column("version", sa.Integer, nullable=False),
    sa.Column("state", sa.JSON, nullable=False))

turn = sa.Table(
    "turn", metadata, _id(),
    sa.Column("talk_id", Id, sa.ForeignKey("talk.id", ondelete="CASCADE"), nullable=False),
    sa.Column("n", sa.Integer, nullable=False), _at(),
    sa.Column("kind", sa.Text, nullable=False),
    sa.Column("content", sa.JSON, nullable=False),
    sa.Column("reply", sa.JSON, nullable=False),
    sa.UniqueConstraint("talk_id", "n"))

cooker = sa.Table(
    "cooker", metadata, _id(),
    sa.Column("name", sa.Text, nullable=False, unique=True),
    sa.Column("profile", sa.JSON(none_as_null=True)))

cook = sa.Table(
    "cook", metadata, _id(),
    sa.Column("talk_id", Id, sa.ForeignKey("talk.id", ondelete="SET NULL"), index=True),
    sa.Column("cooker_id", Id, sa.ForeignKey("cooker.id"), nullable=False, index=True),
    sa.Column("started_ms", sa.BigInteger, nullable=False),
    sa.Column("ended_ms", sa.BigInteger),
    sa.Column("target_f", sa.Float),
    sa.Column("outcome", sa.Text))

reading = sa.Table(
    "reading", metadata, _id(), _of_cook(), _at(),
    sa.Column("probe", sa.Text, nullable=False),
    sa.Column("value_f", sa.Float, nullable=False),
    sa.Column("origin", sa.Text, nullable=False),
    sa.UniqueConstraint("cook_id", "probe", "at_ms"), _one_of("probe", PROBES), _one_of("origin", ORIGINS))

vent_move = sa.Table(
    "vent_move", metadata, _id(), _of_cook(), _at(),
    sa.Column("vent", sa.Text, nullable=False),
    sa.Column("opening", sa.Float, nullable=False),
    sa.Column("was", sa.Float),
    sa.UniqueConstraint("cook_id", "vent", "at_ms"), _one_of("vent", VENTS))

lid = sa.Table("lid", metadata, _of_cook(), _at(), sa.PrimaryKeyConstraint("cook_id", "at_ms"))

deed = sa.Table(
    "deed", metadata, _id(), _of_cook(), _at(),
    sa.Column("act", sa.Text, nullable=False),
    sa.Column("says", sa.Text, nullable=False),
    sa.Index(None, "cook_id", "at_ms"))

advice = sa.Table(
    "advice", metadata, _id(), _of_cook(), _at(),
    sa.Column("text", sa.Text, nullable=False),
    sa.Column("steps", sa.JSON, nullable=False),
    sa.Column("cautions", sa.JSON, nullable=False),
    sa.Column("forecast", sa.JSON(none_as_null=True)),
    sa.Index(None, "cook_id", "at_ms"))

note = sa.Table(
    "note", metadata, _id(), _of_cook(), _at(),
    sa.Column("words", sa.Text, nullable=False),
    sa.Index(None, "cook_id", "at_ms"))
