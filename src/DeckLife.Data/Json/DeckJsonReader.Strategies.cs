using System.Collections.Immutable;
using DeckLife.Data.Tables;
using DeckLife.Diagnostics;
using DeckLife.Quantities;
using DeckLife.Rehabilitation;

namespace DeckLife.Data.Json;

/// <summary>Materials and strategies of deck.json.</summary>
internal sealed partial class DeckJsonReader
{
    private ImmutableArray<OverlayMaterial> ReadMaterials()
    {
        var materials = ImmutableArray.CreateBuilder<OverlayMaterial>();
        foreach (var (item, path) in JsonValues.Objects(root, "", "materials"))
        {
            var name = Name(item, path, materials.Select(m => m.Name));
            var diffusion = JsonValues.Object(item, "diffusion");
            var at = path + ".diffusion";
            var coefficient = values.Uncertain(
                diffusion,
                at,
                "coefficient",
                (v, p) =>
                    values.Measure(
                        v,
                        p,
                        Dimension.Diffusion,
                        1e-4,
                        5000,
                        "a diffusion coefficient of concrete lies between 0.0001 and 5000 mm2/yr (3e-18 and 1.6e-10 m2/s)"
                    )
            );
            var exponent = values.Number(
                diffusion,
                at,
                "ageingExponent",
                0,
                0.99,
                "an ageing exponent lies between 0 and below 1"
            );
            var reference = Years(
                diffusion,
                at,
                "referenceAge",
                1e-3,
                200,
                "it must lie between a day and 200 yr"
            );
            var first = Years(
                diffusion,
                at,
                "ageAtExposure",
                1e-4,
                200,
                "it must lie between an hour and 200 yr"
            );
            var constant = Years(
                diffusion,
                at,
                "constantAfter",
                1e-3,
                200,
                "it must lie between a day and 200 yr"
            );
            var share = values.Fraction(
                item,
                path,
                "withinDeckShare",
                0,
                1,
                "a share lies between 0 and 1"
            );
            var chloride = values.Chloride(item, path, "initialChloride", draft.Mix);
            var life = values.Uncertain(
                item,
                path,
                "serviceLife",
                (v, p) =>
                    values.Measure(
                        v,
                        p,
                        Dimension.Time,
                        0.5,
                        200,
                        "a service life lies between half a year and 200 yr"
                    )
            );
            var density = values.Measure(
                item,
                path,
                "density",
                Dimension.Density,
                500,
                4000,
                "a density lies between 500 and 4000 kg/m3"
            );
            if (name is null || coefficient is null || reference is null || first is null)
            {
                continue;
            }

            if (item["initialChloride"] is null)
            {
                Assume($"chloride in new {name}", "0 kg/m3: not given");
            }

            materials.Add(
                new OverlayMaterial
                {
                    Name = name,
                    DiffusionCoefficient = coefficient.Value,
                    AgeingExponent = exponent ?? 0,
                    ReferenceAge = reference.Value,
                    AgeAtExposure = first.Value,
                    ConstantAfter = constant,
                    WithinDeckShare = share ?? 0,
                    InitialChloride = ChlorideContent.FromKilogramsPerCubicMetre(chloride ?? 0),
                    ServiceLife = life,
                    DensityKgPerM3 = density,
                    WaterCementitiousRatio = Ratio(item, path),
                    Specification = ReadSpecification(item, path, name),
                    Source = JsonValues.Text(item, "source") ?? "",
                }
            );
        }

        return materials.ToImmutable();
    }

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
            var material = Material(overlay, path + ".overlay");
            if (thickness is { } t && material is not null)
            {
                placement = new OverlayPlacement(material, Depth.FromMillimetres(t));
            }
        }

        if (item["remove"] is null && item["overlay"] is null)
        {
            problems.Add(
                DiagnosticCatalogue.OneOfTwo,
                item.Line,
                path,
                null,
                path,
                "remove",
                "overlay",
                "or both: an intervention does something"
            );
        }

        return when is { } at
            ? new Intervention
            {
                At = at,
                Removal = removal,
                Overlay = placement,
            }
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
        var (needed, other) = rule switch
        {
            "fixed-depth" => (new[] { "depth" }, new[] { "limit", "minimumDepth", "maximumDepth" }),
            "chloride-limit" => (["limit", "minimumDepth", "maximumDepth"], ["depth"]),
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
                "it uses " + string.Join(", ", needed)
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
            _ => null,
        };
    }

    // Names stand in the file even where the material itself has faults: a reference to it is then no fault of its own.
    private string? Material(JsonItem item, string path)
    {
        var name = JsonValues.Text(item, "material");
        if (name is null)
        {
            return null;
        }

        var known = JsonValues
            .Objects(root, "", "materials")
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
