using System.Collections.Immutable;
using DeckLife.Diagnostics;
using DeckLife.Population;
using DeckLife.Quantities;
using DeckLife.Rehabilitation;

namespace DeckLife.Data.Json;

/// <summary>Materials of deck.json, and the rim around repairs.</summary>
internal sealed partial class DeckJsonReader
{
    private const double LeastCoefficient = 1e-4;
    private const double MostCoefficient = 5000;
    private const string CoefficientRange =
        "a diffusion coefficient of concrete lies between 0.0001 and 5000 mm2/yr (3e-18 and 1.6e-10 m2/s)";

    private static readonly string[] MaterialKinds = ["diffusion", "barrier", "sealer"];

    private ImmutableArray<OverlayMaterial> ReadMaterials(
        out ImmutableArray<SurfaceProtection> protections
    )
    {
        var thin = ImmutableArray.CreateBuilder<SurfaceProtection>();
        var materials = ImmutableArray.CreateBuilder<OverlayMaterial>();
        foreach (var (item, path) in JsonValues.Objects(root, "", "materials"))
        {
            var name = Name(
                item,
                path,
                materials.Select(m => m.Name).Concat(thin.Select(p => p.Name))
            );
            if (IsOfOneKind(item, path) && item["diffusion"] is null)
            {
                if (ReadThin(item, path, name) is { } protection)
                {
                    thin.Add(protection);
                }

                continue;
            }

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
                        LeastCoefficient,
                        MostCoefficient,
                        CoefficientRange
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
            if (diffusion is not null)
            {
                if ((diffusion["coefficient"] is null) == (diffusion["test"] is null))
                {
                    problems.Add(
                        DiagnosticCatalogue.OneOfTwo,
                        diffusion.Line,
                        at,
                        null,
                        at,
                        "coefficient",
                        "test",
                        "and only one of them: two statements of the coefficient may disagree"
                    );
                }

                coefficient ??= ReadTest(diffusion, at, name, exponent ?? 0, reference);
            }

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
            var life = OwnLife(item, path);
            var cracked = JsonValues.Object(item, "cracked");
            var crackedShare = values.Fraction(
                cracked,
                path + ".cracked",
                "fraction",
                0,
                1,
                "a share lies between 0 and 1"
            );
            var crackedFactor = values.Number(
                cracked,
                path + ".cracked",
                "diffusionFactor",
                1,
                1e4,
                "salt passes cracked concrete at least as fast as sound"
            );
            var least = Length(
                item,
                path,
                "leastThickness",
                1,
                300,
                "an overlay is 1 to 300 mm (12 in) thick"
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
                    CrackedFraction = crackedFactor is null ? 0 : crackedShare ?? 0,
                    CrackedDiffusionFactor = crackedFactor ?? 1,
                    LeastThickness = least is { } t ? Depth.FromMillimetres(t) : null,
                    DensityKgPerM3 = density,
                    WaterCementitiousRatio = Ratio(item, path),
                    Specification = ReadSpecification(item, path, name),
                    Source = JsonValues.Text(item, "source") ?? "",
                }
            );
        }

        protections = thin.ToImmutable();
        return materials.ToImmutable();
    }

    private bool IsOfOneKind(JsonItem item, string path)
    {
        var kinds = MaterialKinds.Count(k => item[k] is not null);
        if (kinds != 1)
        {
            problems.Add(
                DiagnosticCatalogue.OneOfTwo,
                item.Line,
                path,
                null,
                path,
                "diffusion",
                "barrier",
                "or sealer, and only one of them: what it is decides how salt is followed through it"
            );
        }

        return kinds == 1;
    }

    private UncertainValue? OwnLife(JsonItem item, string path) =>
        values.Uncertain(
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

    private SurfaceProtection? ReadThin(JsonItem item, string path, string? name)
    {
        var isBarrier = item["barrier"] is not null;
        var kind = isBarrier ? "barrier" : "sealer";
        var passing = values.Fraction(
            JsonValues.Object(item, kind),
            $"{path}.{kind}",
            isBarrier ? "leakFraction" : "passingFraction",
            0,
            1,
            "a share lies between 0 and 1"
        );
        var life = OwnLife(item, path);
        if (item["serviceLife"] is null)
        {
            problems.Add(
                DiagnosticCatalogue.KeyMissing,
                item.Line,
                path + ".serviceLife",
                null,
                path + ".serviceLife",
                "How long a thin protection works; none works for ever.",
                "\"15 yr\""
            );
        }

        return name is null || passing is null || life is null
            ? null
            : new()
            {
                Name = name,
                Kind = isBarrier ? ProtectionKind.Barrier : ProtectionKind.Sealer,
                PassingFraction = passing.Value,
                ServiceLife = life.Value,
                DensityKgPerM3 = values.Measure(
                    item,
                    path,
                    "density",
                    Dimension.Density,
                    500,
                    4000,
                    "a density lies between 500 and 4000 kg/m3"
                ),
                Source = JsonValues.Text(item, "source") ?? "",
            };
    }

    private SoffitExposure? ReadSoffit()
    {
        const string path = "soffit";
        if (JsonValues.Object(root, path) is not { } item)
        {
            return null;
        }

        var isSalted = JsonValues.Text(item, "exposure") == "salted";
        if (isSalted && item["surfaceChloride"] is null)
        {
            problems.Add(
                DiagnosticCatalogue.KeyMissing,
                item.Line,
                path + ".surfaceChloride",
                null,
                path + ".surfaceChloride",
                "How salty the underside is can't be guessed.",
                "\"2 kg/m3\""
            );
        }

        if (!isSalted && item["surfaceChloride"] is { } idle)
        {
            problems.Add(
                DiagnosticCatalogue.QuantityImpossible,
                idle.Line,
                path + ".surfaceChloride",
                idle.Text,
                path + ".surfaceChloride",
                idle.Text,
                "no salt passes a sealed underside: leave it out, or write exposure \"salted\""
            );
        }

        var content = values.Uncertain(
            item,
            path,
            "surfaceChloride",
            (v, p) => values.Chloride(v, p, draft.Mix)
        );
        return isSalted && content is null
            ? null
            : new()
            {
                SurfaceChloride = isSalted ? content : null,
                Source = JsonValues.Text(item, "source") ?? "",
            };
    }

    private PatchHalo? ReadHalo()
    {
        const string path = "halo";
        if (JsonValues.Object(root, path) is not { } item)
        {
            return null;
        }

        var side = Length(item, path, "patchSide", 50, 10_000, "a patch is 50 mm to 10 m wide");
        var width = Length(item, path, "width", 1, 3000, "a rim is 1 mm to 3 m wide");
        var factor = values.Number(
            item,
            path,
            "rateFactor",
            0.1,
            20,
            "a rate relative to the rest of the deck lies between 0.1 and 20"
        );
        return side is { } s && width is { } w && factor is { } f
            ? new()
            {
                PatchSide = Depth.FromMillimetres(s),
                Width = Depth.FromMillimetres(w),
                RateFactor = f,
                Source = JsonValues.Text(item, "source") ?? "",
            }
            : null;
    }
}
