"""The first schema."""

import sqlalchemy as sa
from alembic import op

revision, down_revision = "0001", None

Id = sa.BigInteger().with_variant(sa.Integer, "sqlite")


def upgrade() -> None:
    _talks()
    _cooks()
    _happenings()
    _words()


def _talks() -> None:
    op.create_table(
        "talk",
        sa.Column("id", Id, primary_key=True),
        sa.Column("epoch_ms", sa.BigInteger, nullable=False),
        sa.Column("opened_ms", sa.BigInteger, nullable=False),
        sa.Column("closed_ms", sa.BigInteger),
        sa.Column("version", sa.Integer, nullable=False),
        sa.Column("state", sa.JSON, nullable=False))
    op.create_table(
        "turn",
        sa.Column("id", Id, primary_key=True),
        sa.Column("talk_id", Id, sa.ForeignKey("talk.id", ondelete="CASCADE", name="fk_turn_talk_id"), nullable=False),
        sa.Column("n", sa.Integer, nullable=False),
        sa.Column("at_ms", sa.BigInteger, nullable=False),
        sa.Column("kind", sa.Text, nullable=False),
        sa.Column("content", sa.JSON, nullable=False),
        sa.Column("reply", sa.JSON, nullable=False),
        sa.UniqueConstraint("talk_id", "n", name="uq_turn_talk_id_n"))


def _cooks() -> None:
    op.create_table(
        "cooker",
        sa.Column("id", Id, primary_key=True),
        sa.Column("name", sa.Text, nullable=False),
        sa.Column("profile", sa.JSON),
        sa.UniqueConstraint("name", name="uq_cooker_name"))
    op.create_table(
        "cook",
        sa.Column("id", Id, primary_key=True),
        sa.Column("talk_id", Id, sa.ForeignKey("talk.id", ondelete="SET NULL", name="fk_cook_talk_id")),
        sa.Column("cooker_id", Id, sa.ForeignKey("cooker.id", name="fk_cook_cooker_id"), nullable=False),
        sa.Column("started_ms", sa.BigInteger, nullable=False),
        sa.Column("ended_ms", sa.BigInteger),
        sa.Column("target_f", sa.Float),
        sa.Column("outcome", sa.Text))
    op.create_index("ix_cook_talk_id", "cook", ["talk_id"])
    op.create_index("ix_cook_cooker_id", "cook", ["cooker_id"])


def _of_cook(table: str) -> tuple[sa.Column, sa.Column]:
    belongs = sa.ForeignKey("cook.id", ondelete="CASCADE", name=f"fk_{table}_cook_id")
    return sa.Column("cook_id", Id, belongs, nullable=False), sa.Column("at_ms", sa.BigInteger, nullable=False)


def _happenings() -> None:
    op.create_table(
        "reading",
        sa.Column("id", Id, primary_key=True), *_of_cook("reading"),
        sa.Column("probe", sa.Text, nullable=False),
        sa.Column("value_f", sa.Float, nullable=False),
        sa.Column("origin", sa.Text, nullable=False),
        sa.UniqueConstraint("cook_id", "probe", "at_ms", name="uq_reading_cook_id_probe_at_ms"),
        sa.CheckConstraint("probe IN ('dome', 'grate', 'meat', 'ambient')", name="ck_reading_probe"),
        sa.CheckConstraint("origin IN ('said', 'measured', 'imported')", name="ck_reading_origin"))
    op.create_table(
        "vent_move",
        sa.Column("id", Id, primary_key=True), *_of_cook("vent_move"),
        sa.Column("vent", sa.Text, nullable=False),
        sa.Column("opening", sa.Float, nullable=False),
        sa.Column("was", sa.Float),
        sa.UniqueConstraint("cook_id", "vent", "at_ms", name="uq_vent_move_cook_id_vent_at_ms"),
        sa.CheckConstraint("vent IN ('bottom', 'top')", name="ck_vent_move_vent"))
    op.create_table("lid", *_of_cook("lid"), sa.PrimaryKeyConstraint("cook_id", "at_ms", name="pk_lid"))


def _words() -> None:
    op.create_table(
        "deed",
        sa.Column("id", Id, primary_key=True), *_of_cook("deed"),
        sa.Column("act", sa.Text, nullable=False),
        sa.Column("says", sa.Text, nullable=False))
    op.create_table(
        "advice",
        sa.Column("id", Id, primary_key=True), *_of_cook("advice"),
        sa.Column("text", sa.Text, nullable=False),
        sa.Column("steps", sa.JSON, nullable=False),
        sa.Column("cautions", sa.JSON, nullable=False),
        sa.Column("forecast", sa.JSON))
    op.create_table(
        "note",
        sa.Column("id", Id, primary_key=True), *_of_cook("note"),
        sa.Column("words", sa.Text, nullable=False))
    for table in ("deed", "advice", "note"):
        op.create_index(f"ix_{table}_cook_id_at_ms", table, ["cook_id", "at_ms"])
