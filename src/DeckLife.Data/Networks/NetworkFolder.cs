using System.Collections.Immutable;
using System.Security.Cryptography;
using System.Text;
using DeckLife.Data.Folders;
using DeckLife.Data.Json;
using DeckLife.Data.Tables;
using DeckLife.Diagnostics;

namespace DeckLife.Data.Networks;

/// <summary>Reads a network's folder: network.json and the decks' folders beside it.</summary>
public static class NetworkFolder
{
    /// <summary>Name of the network's file.</summary>
    public const string NetworkFile = "network.json";

    /// <summary>Reads network.json, or lists all its problems at once.</summary>
    /// <param name="path">The folder.</param>
    public static NetworkReading Read(string path)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        var problems = new ProblemList(NetworkFile);
        var reading = new NetworkReading { Folder = path, Problems = [] };
        if (
            !FileContent.TryRead(Path.Combine(path, NetworkFile), problems, out var bytes)
            || !TextDecoding.TryToUtf8(bytes, problems, out var utf8)
            || JsonTree.ReadObject(utf8, NetworkFile, problems) is not { } root
        )
        {
            return reading with { Problems = problems.ToImmutable() };
        }

        JsonCheck.Check(root, NetworkKeys.All, "", problems);
        var network = new NetworkFileReader(root, problems).Read();
        if (network is not null)
        {
            ReportUnlisted(path, [.. network.Members.Select(m => m.Folder)], problems);
        }

        return reading with
        {
            Network = problems.HasErrors ? null : network,
            Problems = problems.ToImmutable(),
            Sha256 = Convert.ToHexStringLower(SHA256.HashData(bytes.Span)),
            Common = JsonValues.Object(root, "common"),
        };
    }

    /// <summary>Reads one deck of the network; facts that its own file does not give are the network's common ones.</summary>
    /// <param name="reading">The network, read without error.</param>
    /// <param name="index">The deck's place in the list.</param>
    public static DeckFolderResult ReadDeck(NetworkReading reading, int index)
    {
        ArgumentNullException.ThrowIfNull(reading);
        var member = reading.Network!.Members[index];
        var path = Path.Combine(reading.Folder, member.Folder);
        var problems = new ProblemList(member.Folder);
        if (!Directory.Exists(path))
        {
            problems.Add(
                DiagnosticCatalogue.FileMissing,
                null,
                null,
                null,
                $"The folder {member.Folder}",
                "network.json lists it."
            );
            return new(null, problems.ToImmutable()) { IsUnreadable = true };
        }

        return new DeckFolderReader(
            path,
            problems,
            reading.Common,
            coresAreOptional: member.ExposureClass is not null
        ).Read();
    }

    /// <summary>Fingerprint of all that a range of decks rests on: SHA-256, lower-case hexadecimal.</summary>
    /// <param name="reading">The network.</param>
    /// <param name="first">First deck of the range.</param>
    /// <param name="end">One past its last.</param>
    /// <param name="version">Version of the program.</param>
    public static string Fingerprint(NetworkReading reading, int first, int end, string version)
    {
        ArgumentNullException.ThrowIfNull(reading);
        var network = reading.Network!;
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        void Add(string text) => hash.AppendData(Encoding.UTF8.GetBytes(text + "\n"));
        Add(
            FormattableString.Invariant(
                $"{version} {reading.Sha256} {network.Seed} {network.Draws} {network.Points} {first} {end}"
            )
        );
        for (var i = first; i < end; i++)
        {
            var folder = Path.Combine(reading.Folder, network.Members[i].Folder);
            if (!Directory.Exists(folder))
            {
                continue;
            }

            try
            {
                foreach (var file in Directory.EnumerateFiles(folder).Order(StringComparer.Ordinal))
                {
                    Add(Path.GetFileName(file));
                    if (WholeFile.TryRead(file, out var bytes))
                    {
                        hash.AppendData(SHA256.HashData(bytes.Span));
                    }
                    else
                    {
                        Add("too large to be read");
                    }
                }
            }
            catch (Exception e) when (e is IOException or UnauthorizedAccessException)
            {
                // The deck's row will say why; once it can be read, its shard is another.
                Add("can't be read");
            }
        }

        return Convert.ToHexStringLower(hash.GetHashAndReset());
    }

    private static void ReportUnlisted(string path, HashSet<string> listed, ProblemList problems)
    {
        string[] folders;
        try
        {
            folders = Directory.GetDirectories(path);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            problems.Add(
                DiagnosticCatalogue.FileUnreadable,
                null,
                null,
                null,
                "The network's folder",
                e.Message
            );
            return;
        }

        foreach (
            var name in folders.Select(f => Path.GetFileName(f)!).Order(StringComparer.Ordinal)
        )
        {
            if (
                !listed.Contains(name) && File.Exists(Path.Combine(path, name, DeckFolder.DeckFile))
            )
            {
                problems.Add(DiagnosticCatalogue.DeckNotListed, null, null, name, name);
            }
        }
    }
}
