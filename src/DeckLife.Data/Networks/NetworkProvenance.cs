using DeckLife.Data.Projection;

namespace DeckLife.Data.Networks;

/// <summary>Where a network's results come from; it is written into every file.</summary>
/// <param name="Build">The build.</param>
/// <param name="Sha256">SHA-256 of network.json.</param>
/// <param name="Fingerprint">SHA-256 over everything that the decks rest on: files, seed, draws, points, version.</param>
public sealed record NetworkProvenance(BuildStamp Build, string Sha256, string Fingerprint)
{
    /// <summary>The provenance of a network read by this build.</summary>
    /// <param name="reading">The network, read without error.</param>
    public static NetworkProvenance Of(NetworkReading reading)
    {
        ArgumentNullException.ThrowIfNull(reading);
        var build = BuildStamp.OfThisBuild();
        return new(
            build,
            reading.Sha256,
            NetworkFolder.Fingerprint(reading, 0, reading.Network!.Members.Length, build.Version)
        );
    }
}
