using System.Collections.Immutable;
using System.Reflection;
using System.Security.Cryptography;
using DeckLife.Studies;

namespace DeckLife.Data.Studies;

/// <summary>Where a study's results come from; it is written into every file.</summary>
/// <param name="Version">Version of the program.</param>
/// <param name="File">Name of the study file, without its folder.</param>
/// <param name="Sha256">SHA-256 of the study file, lower-case hexadecimal.</param>
/// <param name="Seed">Seed of every random number.</param>
public sealed record StudyProvenance(string Version, string File, string Sha256, ulong Seed)
{
    /// <summary>The files of the deck that the study is about; none for a section.</summary>
    public ImmutableArray<InputFile> DeckFiles { get; init; } = [];

    /// <summary>One line of words: program, study, deck files and seed.</summary>
    public string Line =>
        FormattableString.Invariant(
            $"decklife {Version}; study file {File}, sha256 {Sha256}; {string.Concat(DeckFiles.Select(f => $"{f.Name}, sha256 {f.Sha256}; "))}seed {Seed}"
        );

    /// <summary>Describes a study read from a file.</summary>
    /// <param name="study">The study.</param>
    /// <param name="path">The study file.</param>
    /// <param name="bytes">Its bytes.</param>
    public static StudyProvenance Of(StudyDefinition study, string path, byte[] bytes)
    {
        ArgumentNullException.ThrowIfNull(study);
        return new(
            typeof(StudyDefinition)
                .Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()
                ?.InformationalVersion
                ?? "unknown",
            Path.GetFileName(path),
            Convert.ToHexStringLower(SHA256.HashData(bytes)),
            study.Seed
        )
        {
            DeckFiles = study.Deck?.Deck.Inputs ?? [],
        };
    }
}
