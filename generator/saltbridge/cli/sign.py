"""``saltbridge sign``: a department's name under a template as it stands."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import click

from saltbridge.cli.fault_text import tell_faults
from saltbridge.faults import nearest

EPILOG = """\b
Examples:
  saltbridge sign two-metals --by "A. Moderator" --bank my-bank
  saltbridge sign two-metals --withdraw --bank my-bank
"""


@click.command("sign", epilog=EPILOG)
@click.argument("template")
@click.option(
    "--bank", metavar="DIR", required=True, type=click.Path(path_type=Path), help="The bank's folder; signed.yaml is kept there."
)
@click.option("--by", metavar="NAME", default="", help="Who signs.")
@click.option("--on", "on", metavar="DAY", type=click.DateTime(["%Y-%m-%d"]), help="The day, as 2026-11-25.  [default: today]")
@click.option("--withdraw", is_flag=True, help="Withdraw the signature instead.")
@click.pass_context
def command(ctx: click.Context, template: str, bank: Path, by: str, on: date | None, withdraw: bool) -> None:
    """Sign a template as it stands, or withdraw its signature.

    The signature is bound to the template's keys, the rows of the data sheet and the relations that it uses, and the settings
    for marking: when one of these changes, it no longer holds. A template with faults can't be signed.
    """
    if bool(by) == withdraw:
        raise click.UsageError("Give either --by NAME to sign, or --withdraw.")
    from saltbridge.bank.bank import OWN_FILES  # noqa: PLC0415 - --help starts without it
    from saltbridge.deliver.proof.bank_catalogue import catalogue_of  # noqa: PLC0415 - --help starts without it
    from saltbridge.deliver.proof.proof_run import prove  # noqa: PLC0415 - --help starts without it
    from saltbridge.deliver.proof.signoff import sign  # noqa: PLC0415 - --help starts without it
    from saltbridge.deliver.proof.signoff import withdraw as take_back  # noqa: PLC0415 - --help starts without it

    day = date(on.year, on.month, on.day) if on else date.today()  # noqa: DTZ011 - the signer's own day
    proof = prove(bank, only=[template])
    wanted = proof.bank.template(template)
    if wanted is None:
        known = [each.id for each in proof.bank.templates]
        raise click.UsageError(f"There is no template {template!r} in this bank. {nearest(template, known)}".rstrip())
    if withdraw:
        take_back(proof.bank, wanted, day)
        click.echo(f"The signature on {template} is withdrawn.")
        return
    faults = [
        each.fault for each in proof.weighing("fault") if each.fault.file in {wanted.file, proof.bank.settings.sheet, *OWN_FILES}
    ]
    if faults:
        tell_faults(faults)
        click.echo("A template can be signed when nothing here is left to mend.", err=True)
        ctx.exit(1)
    sign(proof.bank, wanted, catalogue_of(bank), by, day)
    click.echo(f"{template} is signed by {by.strip()}, {day.isoformat()}.")
