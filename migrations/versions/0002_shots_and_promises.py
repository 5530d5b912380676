"""shots, questions of viewers, promises

Revision ID: 0002
Revises: 0001
"""

from collections.abc import Sequence

import sqlalchemy as sa
import sqlmodel
from alembic import op


revision: str = '0002'
down_revision: str | Sequence[str] | None = '0001'
branch_labels: str | Sequence[str] | None = None
depends_on: str | Sequence[str] | None = None


def upgrade() -> None:
    op.create_table('promise',
    sa.Column('id', sa.Integer(), nullable=False),
    sa.Column('code', sqlmodel.sql.sqltypes.AutoString(), nullable=False),
    sa.Column('build_id', sa.Integer(), nullable=False),
    sa.Column('who', sqlmodel.sql.sqltypes.AutoString(), nullable=False),
    sa.Column('supplied', sqlmodel.sql.sqltypes.AutoString(), nullable=False),
    sa.Column('promised', sqlmodel.sql.sqltypes.AutoString(), nullable=False),
    sa.Column('promised_at', sqlmodel.sql.sqltypes.AutoString(), nullable=False),
    sa.Column('due_at', sqlmodel.sql.sqltypes.AutoString(), nullable=True),
    sa.Column('kept_at', sqlmodel.sql.sqltypes.AutoString(), nullable=True),
    sa.Column('retired_at', sqlmodel.sql.sqltypes.AutoString(), nullable=True),
    sa.CheckConstraint("due_at GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]T[0-9][0-9]:[0-9][0-9]:[0-9][0-9]Z'", name=op.f('ck_promise_due_at')),
    sa.CheckConstraint("kept_at GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]T[0-9][0-9]:[0-9][0-9]:[0-9][0-9]Z'", name=op.f('ck_promise_kept_at')),
    sa.CheckConstraint("length(code) BETWEEN 1 AND 24 AND code NOT GLOB '*[^A-Z0-9._-]*'", name=op.f('ck_promise_code')),
    sa.CheckConstraint("promised_at GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]T[0-9][0-9]:[0-9][0-9]:[0-9][0-9]Z'", name=op.f('ck_promise_promised_at')),
    sa.CheckConstraint("retired_at GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]T[0-9][0-9]:[0-9][0-9]:[0-9][0-9]Z'", name=op.f('ck_promise_retired_at')),
    sa.ForeignKeyConstraint(['build_id'], ['build.id'], name=op.f('fk_promise_build_id_build')),
    sa.PrimaryKeyConstraint('id', name=op.f('pk_promise')),
    sa.UniqueConstraint('code', name=op.f('uq_promise_code')),
    sqlite_autoincrement=True
    )
    with op.batch_alter_table('promise', schema=None) as batch_op:
        batch_op.create_index(batch_op.f('ix_promise_build_id'), ['build_id'], unique=False)

    op.create_table('viewer_question',
    sa.Column('id', sa.Integer(), nullable=False),
    sa.Column('code', sqlmodel.sql.sqltypes.AutoString(), nullable=False),
    sa.Column('build_id', sa.Integer(), nullable=False),
    sa.Column('text', sqlmodel.sql.sqltypes.AutoString(), nullable=False),
    sa.Column('who', sqlmodel.sql.sqltypes.AutoString(), nullable=False),
    sa.Column('asked_episode_id', sa.Integer(), nullable=True),
    sa.Column('asked_at', sqlmodel.sql.sqltypes.AutoString(), nullable=False),
    sa.Column('answer', sqlmodel.sql.sqltypes.AutoString(), nullable=False),
    sa.Column('answered_episode_id', sa.Integer(), nullable=True),
    sa.Column('answered_at', sqlmodel.sql.sqltypes.AutoString(), nullable=True),
    sa.Column('retired_at', sqlmodel.sql.sqltypes.AutoString(), nullable=True),
    sa.CheckConstraint("answered_at GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]T[0-9][0-9]:[0-9][0-9]:[0-9][0-9]Z'", name=op.f('ck_viewer_question_answered_at')),
    sa.CheckConstraint("asked_at GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]T[0-9][0-9]:[0-9][0-9]:[0-9][0-9]Z'", name=op.f('ck_viewer_question_asked_at')),
    sa.CheckConstraint("length(code) BETWEEN 1 AND 24 AND code NOT GLOB '*[^A-Z0-9._-]*'", name=op.f('ck_viewer_question_code')),
    sa.CheckConstraint("retired_at GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]T[0-9][0-9]:[0-9][0-9]:[0-9][0-9]Z'", name=op.f('ck_viewer_question_retired_at')),
    sa.ForeignKeyConstraint(['answered_episode_id'], ['episode.id'], name=op.f('fk_viewer_question_answered_episode_id_episode')),
    sa.ForeignKeyConstraint(['asked_episode_id'], ['episode.id'], name=op.f('fk_viewer_question_asked_episode_id_episode')),
    sa.ForeignKeyConstraint(['build_id'], ['build.id'], name=op.f('fk_viewer_question_build_id_build')),
    sa.PrimaryKeyConstraint('id', name=op.f('pk_viewer_question')),
    sa.UniqueConstraint('code', name=op.f('uq_viewer_question_code')),
    sqlite_autoincrement=True
    )
    with op.batch_alter_table('viewer_question', schema=None) as batch_op:
        batch_op.create_index(batch_op.f('ix_viewer_question_answered_episode_id'), ['answered_episode_id'], unique=False)
        batch_op.create_index(batch_op.f('ix_viewer_question_asked_episode_id'), ['asked_episode_id'], unique=False)
        batch_op.create_index(batch_op.f('ix_viewer_question_build_id'), ['build_id'], unique=False)

    op.create_table('shot',
    sa.Column('id', sa.Integer(), nullable=False),
    sa.Column('code', sqlmodel.sql.sqltypes.AutoString(), nullable=False),
    sa.Column('build_id', sa.Integer(), nullable=False),
    sa.Column('episode_id', sa.Integer(), nullable=True),
    sa.Column('what', sqlmodel.sql.sqltypes.AutoString(), nullable=False),
    sa.Column('step_id', sa.Integer(), nullable=True),
    sa.Column('side', sa.Enum('L', 'R', '-', name='side', native_enum=False, create_constraint=True, length=24), nullable=True),
    sa.Column('filmed_at', sqlmodel.sql.sqltypes.AutoString(), nullable=True),
    sa.Column('safe_at', sqlmodel.sql.sqltypes.AutoString(), nullable=True),
    sa.Column('overruled_at', sqlmodel.sql.sqltypes.AutoString(), nullable=True),
    sa.Column('overruled_why', sqlmodel.sql.sqltypes.AutoString(), nullable=False),
    sa.Column('retired_at', sqlmodel.sql.sqltypes.AutoString(), nullable=True),
    sa.CheckConstraint("filmed_at GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]T[0-9][0-9]:[0-9][0-9]:[0-9][0-9]Z'", name=op.f('ck_shot_filmed_at')),
    sa.CheckConstraint("length(code) BETWEEN 1 AND 24 AND code NOT GLOB '*[^A-Z0-9._-]*'", name=op.f('ck_shot_code')),
    sa.CheckConstraint("overruled_at GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]T[0-9][0-9]:[0-9][0-9]:[0-9][0-9]Z'", name=op.f('ck_shot_overruled_at')),
    sa.CheckConstraint("retired_at GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]T[0-9][0-9]:[0-9][0-9]:[0-9][0-9]Z'", name=op.f('ck_shot_retired_at')),
    sa.CheckConstraint("safe_at GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]T[0-9][0-9]:[0-9][0-9]:[0-9][0-9]Z'", name=op.f('ck_shot_safe_at')),
    sa.CheckConstraint('safe_at IS NULL OR (filmed_at IS NOT NULL AND safe_at >= filmed_at)', name=op.f('ck_shot_safe_filmed')),
    sa.ForeignKeyConstraint(['build_id'], ['build.id'], name=op.f('fk_shot_build_id_build')),
    sa.ForeignKeyConstraint(['episode_id'], ['episode.id'], name=op.f('fk_shot_episode_id_episode')),
    sa.ForeignKeyConstraint(['step_id'], ['step.id'], name=op.f('fk_shot_step_id_step')),
    sa.PrimaryKeyConstraint('id', name=op.f('pk_shot')),
    sa.UniqueConstraint('code', name=op.f('uq_shot_code')),
    sqlite_autoincrement=True
    )
    with op.batch_alter_table('shot', schema=None) as batch_op:
        batch_op.create_index(batch_op.f('ix_shot_build_id'), ['build_id'], unique=False)
        batch_op.create_index(batch_op.f('ix_shot_episode_id'), ['episode_id'], unique=False)
        batch_op.create_index(batch_op.f('ix_shot_step_id'), ['step_id'], unique=False)



def downgrade() -> None:
    with op.batch_alter_table('shot', schema=None) as batch_op:
        batch_op.drop_index(batch_op.f('ix_shot_step_id'))
        batch_op.drop_index(batch_op.f('ix_shot_episode_id'))
        batch_op.drop_index(batch_op.f('ix_shot_build_id'))

    op.drop_table('shot')
    with op.batch_alter_table('viewer_question', schema=None) as batch_op:
        batch_op.drop_index(batch_op.f('ix_viewer_question_build_id'))
        batch_op.drop_index(batch_op.f('ix_viewer_question_asked_episode_id'))
        batch_op.drop_index(batch_op.f('ix_viewer_question_answered_episode_id'))

    op.drop_table('viewer_question')
    with op.batch_alter_table('promise', schema=None) as batch_op:
        batch_op.drop_index(batch_op.f('ix_promise_build_id'))

    op.drop_table('promise')
