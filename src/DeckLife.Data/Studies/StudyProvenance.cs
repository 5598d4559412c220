namespace DeckLife.Data.Studies;

/// <summary>Where a study's results come from; it is written into every file.</summary>
/// <param name="Version">Version of the program.</param>
/// <param name="File">Name of the study file, without its folder.</param>
/// <param name="Sha256">SHA-256 of the study file, lower-case hexadecimal.</param>
/// <param name="Seed">Seed of every random number.</param>
public sealed record StudyProvenance(string Version, string File, string Sha256, ulong Seed);
