using System.Reflection;
using Xunit;

namespace DeckLife.Cli.Tests;

/// <summary>Arrows between the source projects point one way.</summary>
public class ReferenceDirectionTests
{
    // What each assembly of the project may refer to, directly.
    private static readonly Dictionary<string, string[]> Allowed = new()
    {
        ["DeckLife.Numerics"] = [],
        ["DeckLife"] = ["DeckLife.Numerics"],
        ["DeckLife.Survey"] = ["DeckLife", "DeckLife.Numerics"],
        ["DeckLife.Network"] = ["DeckLife", "DeckLife.Numerics"],
        ["DeckLife.Data"] =
        [
            "DeckLife",
            "DeckLife.Numerics",
            "DeckLife.Survey",
            "DeckLife.Network",
        ],
        ["DeckLife.Reporting"] =
        [
            "DeckLife",
            "DeckLife.Numerics",
            "DeckLife.Survey",
            "DeckLife.Network",
        ],
        ["DeckLife.Notebooks"] =
        [
            "DeckLife",
            "DeckLife.Numerics",
            "DeckLife.Survey",
            "DeckLife.Network",
            "DeckLife.Data",
            "DeckLife.Reporting",
        ],
    };

    public static TheoryData<string> Assemblies => [.. Allowed.Keys];

    [Theory]
    [MemberData(nameof(Assemblies))]
    public void References_OfEachRoom_PointOneWay(string name)
    {
        var references = Assembly
            .Load(new AssemblyName(name))
            .GetReferencedAssemblies()
            .Select(r => r.Name!)
            .Where(r => r.StartsWith("DeckLife", StringComparison.Ordinal));

        Assert.All(references, r => Assert.Contains(r, Allowed[name]));
    }

    [Fact]
    public void Domain_References_NoFilesConsoleOrClock()
    {
        var forbidden = new[]
        {
            "System.Console",
            "CsvHelper",
            "System.Net.Http",
            "System.Text.Json",
        };

        foreach (var name in new[] { "DeckLife.Numerics", "DeckLife" })
        {
            var references = Assembly
                .Load(new AssemblyName(name))
                .GetReferencedAssemblies()
                .Select(r => r.Name!);
            Assert.All(references, r => Assert.DoesNotContain(r, forbidden));
        }
    }

    [Fact]
    public void EverySourceProject_IsCovered()
    {
        var loaded = Directory
            .GetFiles(AppContext.BaseDirectory, "DeckLife*.dll")
            .Select(f => Path.GetFileNameWithoutExtension(f))
            .Where(n => !n.Contains("Tests", StringComparison.Ordinal) && n != "DeckLife.Cli");

        Assert.Equal(
            Allowed.Keys.Order(StringComparer.Ordinal),
            loaded.Order(StringComparer.Ordinal)
        );
    }
}
