#!/usr/bin/env python3
"""Lists the licences of all packages that the projects restore, direct and transitive, from the lock files and the nuspec files in the
package cache: list-licences.py writes src/Documentation/licences.md. Asks no registry; exit code 1 where a licence is not stated."""
import json, os, pathlib, re, sys, xml.etree.ElementTree as xml

root = pathlib.Path(__file__).resolve().parents[2]
cache = pathlib.Path(os.environ.get("NUGET_PACKAGES", pathlib.Path.home() / ".nuget" / "packages"))

# Packages of before 2019 give an address instead of a licence; what stands there is from memory, and the table says so.
KNOWN = {
    "https://github.com/MiloszKrajewski/K4os.Compression.LZ4/blob/master/LICENSE?raw=true": "MIT",
    "https://raw.githubusercontent.com/aspnet/AspNetCore/2.0.0/LICENSE.txt": "Apache-2.0",
    "https://raw.githubusercontent.com/xunit/xunit/master/license.txt": "Apache-2.0",
}


def used(lock_files):
    packages = {}
    for lock in lock_files:
        for framework in json.loads(lock.read_text())["dependencies"].values():
            for name, entry in framework.items():
                if entry["type"] == "Project":
                    continue
                key = (name, entry["resolved"])
                packages[key] = packages.get(key, False) or entry["type"] == "Direct"
    return packages


def licence(name, version):
    folder = cache / name.lower() / version.lower()
    nuspec = folder / f"{name.lower()}.nuspec"
    if not nuspec.exists():
        return "not in the package cache", ""
    meta = {re.sub(r"\{.*\}", "", e.tag): e for e in xml.parse(nuspec).getroot()[0]}
    authors = (meta["authors"].text or "").strip() if "authors" in meta else ""
    if (stated := meta.get("license")) is not None:
        if stated.get("type") == "expression":
            return stated.text.strip(), authors
        text = folder / stated.text.strip().replace("\\", "/")
        found = text.read_text(errors="replace") if text.exists() else ""
        for words, short in (
            ("Permission is hereby granted, free of charge", "MIT"),
            ("Apache License", "Apache-2.0"),
            ("Redistribution and use in source and binary forms", "BSD"),
            ("MICROSOFT SOFTWARE LICENSE TERMS", "Microsoft software licence terms"),
        ):
            if words in found:
                return f"{short} (file {stated.text.strip()})", authors
        return f"file {stated.text.strip()}", authors
    if (address := meta.get("licenseUrl")) is not None and address.text:
        known = KNOWN.get(address.text.strip())
        return f"{known + ', from memory of ' if known else ''}{address.text.strip()}", authors
    return "not stated", authors


def table(packages):
    lines = ["| package | version | asked for | licence | authors |", "| --- | --- | --- | --- | --- |"]
    for (name, version), direct in sorted(packages.items(), key=lambda p: p[0][0].lower()):
        terms, authors = licence(name, version)
        lines.append(f"| {name} | {version} | {'directly' if direct else 'by another'} | {terms} | {authors.replace('|', '/')[:60]} |")
    return lines


locks = sorted(root.glob("src/*/packages.lock.json"))
shipped = used(locks)
others = {k: v for k, v in used(sorted(root.glob("tests/*/packages.lock.json")) + sorted(root.glob("reference-checks/*/packages.lock.json"))).items() if k not in shipped}
page = [
    "# Licences of the packages",
    "",
    "Written by `python3 tests/studies/list-licences.py` from the lock files and from what each package says of itself (its nuspec, in the package cache).",
    "",
    "Known vulnerabilities are asked of the registry by `dotnet list DeckLife.sln package --vulnerable --include-transitive`; on 2026-11-25 it named none.",
    "",
    "## What is shipped with the command",
    "",
    *table(shipped),
    "",
    "## Tests and benchmarks only",
    "",
    *table(others),
    "",
]
(root / "src" / "Documentation" / "licences.md").write_text("\n".join(page))
bad = [line for line in page if "not stated" in line or "not in the package cache" in line]
print(f"{len(shipped)} shipped, {len(others)} others")
print("\n".join(bad))
sys.exit(1 if bad else 0)
