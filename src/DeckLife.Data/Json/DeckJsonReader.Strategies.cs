using System.Collections.Immutable;
using DeckLife.Data.Tables;
using DeckLife.Diagnostics;
using DeckLife.Quantities;
using DeckLife.Rehabilitation;

namespace DeckLife.Data.Json;

/// <summary>Strategies of deck.json.</summary>
internal sealed partial class DeckJsonReader
{
    private ImmutableArray<Strategy> ReadStrategies(
        ImmutableArray<OverlayMaterial> materials,
        double? deckThickness,
        Age? horizon
    )
    {
        var strategies = ImmutableArray.CreateBuilder<Strategy>();
        foreach (var (item, path) in JsonValues.Objects(root, "", "strategies"))
        {
            var name = Name(item, path, strategies.Select(s => s.Name));
            var interventions = ImmutableArray.CreateBuilder<Intervention>();
            foreach (var (action, at) in JsonValues.Objects(item, path, "interventions"))
            {
                if (
                    ReadIntervention(action, at, materials, deckThickness, horizon) is
                    { } intervention
                )
                {
                    interventions.Add(intervention);
                }
            }

            if (name is not null)
            {
                strategies.Add(
                    new Strategy
                    {
                        Name = name,
                        Interventions = [.. interventions.OrderBy(i => i.At.Years)],
                    }
                );
            }
        }

        return strategies.ToImmutable();
    }

    private Intervention? ReadIntervention(
        JsonItem item,
        string path,
        ImmutableArray<OverlayMaterial> materials,
        double? deckThickness,
        Age? horizon
    )
    {
        var when = Years(
            item,
            path,
            "at",
            0,
            horizon?.Years ?? 200,
            "an intervention lies between the survey and the horizon"
        );
        var removal = ReadRemoval(
            JsonValues.Object(item, "remove"),
            path + ".remove",
            deckThickness
        );
        var overlay = JsonValues.Object(item, "overlay");
        OverlayPlacement? placement = null;
        if (overlay is not null)
        {
            var thickness = Length(
                overlay,
                path + ".overlay",
                "thickness",
                1,
                300,
                "an overlay is 1 to 300 mm (12 in) thick"
            );
            var material = Material(overlay, path + ".overlay", "diffusion");
            if (thickness is { } t && material is not null)
            {
                placement = new OverlayPlacement(material, Depth.FromMillimetres(t));
            }
        }

        if (item["remove"] is null && item["overlay"] is null && item["protect"] is null)
        {
            problems.Add(
                DiagnosticCatalogue.OneOfTwo,
                item.Line,
                path,
                null,
                path,
                "remove",
                "overlay",
                "or both, or protect: an intervention does something"
            );
        }

        return when is { } at
            ? new Intervention
            {
                At = at,
                Removal = removal,
                Overlay = placement,
                Protection = ReadProtection(JsonValues.Object(item, "protect"), path + ".protect"),
                WhenOverlayEnds = JsonValues.Text(item, "when") == "overlay-ends",
                RepairsDamage = JsonValues.Text(item, "damage") switch
                {
                    "repair" => true,
                    "leave" => false,
                    _ => null,
                },
            }
            : null;
    }

    private ProtectionPlacement? ReadProtection(JsonItem? item, string path)
    {
        if (item is null)
        {
            return null;
        }

        var thickness = Length(
            item,
            path,
            "thickness",
            0,
            150,
            "a protection is at most 150 mm (6 in) thick, what lies on a membrane included"
        );
        return Material(item, path, "barrier", "sealer") is { } material
            ? new(material, Depth.FromMillimetres(thickness ?? 0))
            : null;
    }

    private RemovalRule? ReadRemoval(JsonItem? item, string path, double? deckThickness)
    {
        if (item is null)
        {
            return null;
        }

        var most = deckThickness is { } t ? t - 10 : 500;
        const string allowed = "removal leaves at least 10 mm of the slab";
        var rule = JsonValues.Text(item, "rule");
        var depth = Length(item, path, "depth", 0.1, most, allowed);
        var limit = values.Chloride(item, path, "limit", draft.Mix);
        var least = Length(item, path, "minimumDepth", 0, most, allowed);
        var deepest = Length(item, path, "maximumDepth", 0.1, most, allowed);
        var potential = ReadPotential(item, path);
        var (needed, other) = rule switch
        {
            "fixed-depth" => (
                new[] { "depth" },
                new[] { "limit", "minimumDepth", "maximumDepth", "potential" }
            ),
            "chloride-limit" => (["limit", "minimumDepth", "maximumDepth"], ["depth", "potential"]),
            "unsound-areas" => (
                [],
                ["depth", "limit", "minimumDepth", "maximumDepth", "potential"]
            ),
            "half-cell-limit" => (["potential"], ["limit", "minimumDepth", "maximumDepth"]),
            _ => ([], []),
        };
        foreach (var key in needed.Where(k => item[k] is null))
        {
            var known = DeckKeys
                .All.First(k => k.Name == "strategies")
                .Keys![1]
                .Keys![1]
                .Keys!.First(k => k.Name == key);
            problems.Add(
                DiagnosticCatalogue.KeyMissing,
                item.Line,
                $"{path}.{key}",
                null,
                $"{path}.{key}",
                known.Description,
                JsonCheck.Example(known)
            );
        }

        foreach (var key in other.Where(k => item[k] is not null))
        {
            problems.Add(
                DiagnosticCatalogue.KeyNotForRule,
                item[key]!.Line,
                $"{path}.{key}",
                item[key]!.Text,
                path,
                key,
                rule!,
                needed.Length == 0 ? "it uses no other key" : "it uses " + string.Join(", ", needed)
            );
        }

        if (least > deepest)
        {
            problems.Add(
                DiagnosticCatalogue.QuantityImpossible,
                item["minimumDepth"]!.Line,
                path + ".minimumDepth",
                item["minimumDepth"]!.Text,
                path + ".minimumDepth",
                item["minimumDepth"]!.Text,
                "it is at most the maximumDepth"
            );
        }

        return rule switch
        {
            "fixed-depth" when depth is { } d => new FixedDepthRemoval(Depth.FromMillimetres(d)),
            "chloride-limit" when limit is { } c && least is { } a && deepest is { } b =>
                new ChlorideLimitRemoval(
                    ChlorideContent.FromKilogramsPerCubicMetre(c),
                    Depth.FromMillimetres(a),
                    Depth.FromMillimetres(b)
                ),
            "unsound-areas" => new UnsoundAreaRemoval(),
            "half-cell-limit" when potential is { } p => new HalfCellRemoval(
                p,
                Depth.FromMillimetres(depth ?? 0)
            ),
            _ => null,
        };
    }

    private Potential? ReadPotential(JsonItem item, string path)
    {
        if (item["potential"] is not { Kind: System.Text.Json.JsonValueKind.String } value)
        {
            return null;
        }

        var here = path + ".potential";
        if (!Potential.TryParse(value.Text, out var potential, out var problem))
        {
            problems.Add(
                DiagnosticCatalogue.QuantityUnreadable,
                value.Line,
                here,
                value.Text,
                here,
                problem
            );
            return null;
        }

        if (potential.MillivoltsCse is < -800 or > 0)
        {
            problems.Add(
                DiagnosticCatalogue.QuantityImpossible,
                value.Line,
                here,
                value.Text,
                here,
                value.Text,
                "a limit lies between -800 and 0 mV CSE"
            );
            return null;
        }

        return potential;
    }

    // Names stand in the file even where the material itself has faults: a reference to it is then no fault of its own.
    private string? Material(JsonItem item, string path, params string[] kinds)
    {
        var name = JsonValues.Text(item, "material");
        if (name is null)
        {
            return null;
        }

        // A material without its kind has been reported where it stands.
        var known = JsonValues
            .Objects(root, "", "materials")
            .Where(m =>
                Array.Exists(kinds, k => m.Item[k] is not null)
                || !Array.Exists(MaterialKinds, k => m.Item[k] is not null)
            )
            .Select(m => JsonValues.Text(m.Item, "name"))
            .OfType<string>()
            .ToList();
        if (known.Contains(name))
        {
            return name;
        }

        var near = NearestName.Of(name, known);
        problems.Add(
            DiagnosticCatalogue.NameUnknown,
            item["material"]!.Line,
            path + ".material",
            name,
            path,
            name,
            known.Count == 0 ? "there are none" : string.Join(", ", known),
            near is null ? " Add it to materials." : $" Did you mean '{near}'?"
        );
        return null;
    }

    private string? Name(JsonItem item, string path, IEnumerable<string> taken)
    {
        var name = JsonValues.Text(item, "name");
        if (name is not null && taken.Contains(name))
        {
            problems.Add(
                DiagnosticCatalogue.NameTwice,
                item["name"]!.Line,
                path + ".name",
                name,
                path,
                name
            );
            return null;
        }

        return name is { Length: > 0 } ? name : null;
    }
}
