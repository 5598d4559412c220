using System.Collections.Frozen;
using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;
using System.Text;

namespace DeckLife.Quantities;

/// <summary>The units that the library reads, each in the spellings of laboratories and agencies.</summary>
/// <remarks>Factors are exact definitions: <see cref="UnitFactors"/>.</remarks>
public static class Units
{
    private const double MetresPerFoot = 0.3048;
    private const double MetresPerYard = 0.9144;
    private const double PoundPerCubicFoot =
        UnitFactors.KilogramsPerPound / (MetresPerFoot * MetresPerFoot * MetresPerFoot);

    private static readonly (Unit Unit, string Spellings)[] Table =
    [
        (new("mm", Dimension.Length, 1), "mm|mm.|millimetre|millimetres|millimeter|millimeters"),
        (new("cm", Dimension.Length, 10), "cm|centimetre|centimetres|centimeter|centimeters"),
        (new("m", Dimension.Length, 1000), "m|metre|metres|meter|meters"),
        (
            new("in", Dimension.Length, UnitFactors.MillimetresPerInch),
            "in|in.|ins|inch|inches|\"|''"
        ),
        (new("ft", Dimension.Length, UnitFactors.MillimetresPerFoot), "ft|ft.|foot|feet|'"),
        (new("yr", Dimension.Time, 1), "yr|yr.|yrs|yrs.|y|year|years"),
        (new("d", Dimension.Time, 1 / UnitFactors.DaysPerYear), "d|day|days"),
        (new("month", Dimension.Time, 1.0 / 12), "month|months|mo"),
        (new("week", Dimension.Time, 7 / UnitFactors.DaysPerYear), "week|weeks|wk|wks"),
        (new("mm2/yr", Dimension.Diffusion, 1), "mm2/yr|mm2/y|mm2/a|mm2/year|sqmm/yr"),
        (new("cm2/yr", Dimension.Diffusion, 100), "cm2/yr|cm2/y|cm2/a|cm2/year|sqcm/yr"),
        (new("m2/yr", Dimension.Diffusion, 1e6), "m2/yr|m2/y|m2/a|m2/year"),
        (
            new("in2/yr", Dimension.Diffusion, UnitFactors.SquareMillimetresPerSquareInch),
            "in2/yr|in2/y|in2/year|in.2/yr|in.2/year|sqin/yr|sqin./yr|sqin/year"
        ),
        (
            new(
                "m2/s",
                Dimension.Diffusion,
                UnitFactors.SquareMillimetresPerYearPerSquareMetrePerSecond
            ),
            "m2/s|m2/sec"
        ),
        (
            new(
                "cm2/s",
                Dimension.Diffusion,
                1e-4 * UnitFactors.SquareMillimetresPerYearPerSquareMetrePerSecond
            ),
            "cm2/s|cm2/sec"
        ),
        (new("mm2/s", Dimension.Diffusion, UnitFactors.SecondsPerYear), "mm2/s|mm2/sec"),
        (new("kg/m3", Dimension.Chloride, 1), "kg/m3|kg/cum|kgm-3"),
        (
            new(
                "lb/yd3",
                Dimension.Chloride,
                UnitFactors.KilogramsPerCubicMetrePerPoundPerCubicYard
            ),
            "lb/yd3|lbs/yd3|lb./yd3|lbs./yd3|lb/yd.3|lb/cy|lbs/cy|lb./cy|lb/c.y.|lbs/c.y.|lb/cuyd|lbs/cuyd|lb/cu.yd.|lb./cu.yd.|lbs/cu.yd.|pcy"
        ),
        (
            new("% of concrete", Dimension.Chloride, 0.01, ChlorideBasis.ConcreteMass),
            "%ofconcrete|%concrete|%bymassofconcrete|%byweightofconcrete|%bywtofconcrete|%bywt.ofconcrete|%massofconcrete|%wtofconcrete|%wt.ofconcrete|wt%ofconcrete|%bymassconcrete|%byweightconcrete|mass%ofconcrete"
        ),
        (
            new("ppm", Dimension.Chloride, 1e-6, ChlorideBasis.ConcreteMass),
            "ppm|ppmofconcrete|ppmbymassofconcrete|ppmbyweightofconcrete|mg/kg|mg/kgofconcrete"
        ),
        (
            new("% of binder", Dimension.Chloride, 0.01, ChlorideBasis.BinderMass),
            "%ofbinder|%binder|%bymassofbinder|%byweightofbinder|%bywtofbinder|%bywt.ofbinder|%massofbinder|wt%ofbinder|%ofcementitious|%ofcementitiousmaterial|%ofcementitiousmaterials|%bymassofcementitiousmaterial|%bymassofcementitiousmaterials"
        ),
        (new("mV", Dimension.Potential, 1), "mv|millivolt|millivolts"),
        (new("V", Dimension.Potential, 1000), "v|volt|volts"),
        (new("m2", Dimension.Area, 1), "m2|sqm|sq.m|sq.m."),
        (
            new("ft2", Dimension.Area, MetresPerFoot * MetresPerFoot),
            "ft2|sqft|sq.ft|sq.ft.|sf|s.f.|ft.2"
        ),
        (
            new("yd2", Dimension.Area, MetresPerYard * MetresPerYard),
            "yd2|sqyd|sq.yd|sq.yd.|sy|s.y."
        ),
        (new("m3", Dimension.Volume, 1), "m3|cum|cu.m|cu.m."),
        (
            new("ft3", Dimension.Volume, MetresPerFoot * MetresPerFoot * MetresPerFoot),
            "ft3|cuft|cu.ft|cu.ft.|cf|c.f."
        ),
        (
            new("yd3", Dimension.Volume, UnitFactors.CubicMetresPerCubicYard),
            "yd3|cuyd|cu.yd|cu.yd.|cy|c.y."
        ),
        (new("kg/m3", Dimension.Density, 1), "kg/m3|kg/cum"),
        (
            new(
                "lb/yd3",
                Dimension.Density,
                UnitFactors.KilogramsPerCubicMetrePerPoundPerCubicYard
            ),
            "lb/yd3|lbs/yd3|lb./yd3|lb/cy|lbs/cy|lb./cy|lb/cuyd|lbs/cuyd|lb/cu.yd.|lbs/cu.yd.|pcy"
        ),
        (
            new("lb/ft3", Dimension.Density, PoundPerCubicFoot),
            "lb/ft3|lbs/ft3|lb./ft3|lb/cf|lbs/cf|lb/cuft|lbs/cuft|lb/cu.ft.|lbs/cu.ft.|pcf"
        ),
        (new("g/cm3", Dimension.Density, 1000), "g/cm3|g/cc|t/m3|kg/l|kg/dm3"),
        (new("kN/m2", Dimension.SurfaceLoad, 1), "kn/m2|kn/sqm|kpa"),
        (
            new(
                "lbf/ft2",
                Dimension.SurfaceLoad,
                UnitFactors.KilonewtonsPerSquareMetrePerPoundPerSquareFoot
            ),
            "lbf/ft2|lb/ft2|lbs/ft2|lb/sqft|lbs/sqft|lbf/sqft|psf"
        ),
        (new("°C", Dimension.Temperature, 1), "°c|c|degc|celsius"),
        (new("K", Dimension.Temperature, 1), "k|kelvin"),
        (new("°F", Dimension.Temperature, 1 / 1.8), "°f|f|degf|fahrenheit"),
    ];

    private static readonly FrozenDictionary<(Dimension, string), Unit> BySpelling = Table
        .SelectMany(t => t.Spellings.Split('|').Select(s => (Key: (t.Unit.Dimension, s), t.Unit)))
        .ToFrozenDictionary(t => t.Key, t => t.Unit);

    /// <summary>All units of a dimension, in the order of the documentation.</summary>
    /// <param name="dimension">What they measure.</param>
    public static ImmutableArray<Unit> Of(Dimension dimension) =>
        [.. Table.Where(t => t.Unit.Dimension == dimension).Select(t => t.Unit)];

    /// <summary>Finds the unit that a text names, or says why it names none.</summary>
    /// <param name="dimension">What the unit must measure.</param>
    /// <param name="text">The unit as written: <c>lb/cy</c>, <c>lb_per_yd3</c>, <c>mm²/yr</c>, <c>"</c>.</param>
    /// <param name="unit">The unit.</param>
    /// <param name="problem">What is wrong with the text, and what is allowed.</param>
    public static bool TryFind(
        Dimension dimension,
        string text,
        [NotNullWhen(true)] out Unit? unit,
        [NotNullWhen(false)] out string? problem
    )
    {
        ArgumentNullException.ThrowIfNull(text);
        var key = Normalise(text);
        if (BySpelling.TryGetValue((dimension, key), out unit))
        {
            problem = null;
            return true;
        }

        problem = WhyNot(dimension, key, text);
        return false;
    }

    /// <summary>The spellings that a message may offer for a dimension.</summary>
    /// <param name="dimension">The dimension.</param>
    public static string Allowed(Dimension dimension) =>
        string.Join(", ", Of(dimension).Select(u => u.Name));

    private static string WhyNot(Dimension dimension, string key, string text)
    {
        if (dimension == Dimension.Chloride)
        {
            if (key is "%" or "percent" or "wt%" or "mass%" or "%bymass" or "%byweight" or "%wt")
            {
                return $"'{text}' does not say what it is a share of: write '% of concrete' or '% of binder'";
            }

            if (key.Contains("cement", StringComparison.Ordinal))
            {
                return $"'{text}' does not say whether fly ash, slag and silica fume count: write '% of binder' (all "
                    + "cementitious material) and give the binder content that the laboratory meant";
            }

            if (key.Contains("nacl", StringComparison.Ordinal))
            {
                return $"'{text}' is salt, not chloride: multiply by 0.6066 (35.45/58.44) and give it as chloride";
            }
        }

        return text.Trim().Length == 0
            ? $"its unit is missing: allowed are {Allowed(dimension)}"
            : $"'{text.Trim()}' is not a known unit here: allowed are {Allowed(dimension)}";
    }

    // One key for the many ways to write the same unit: case, spaces, superscripts and "per" do not matter.
    internal static string Normalise(string text)
    {
        var builder = new StringBuilder(text.Length);
        foreach (var c in text.Trim().Trim('[', ']', '(', ')'))
        {
            switch (c)
            {
                case '²':
                    builder.Append('2');
                    break;
                case '³':
                    builder.Append('3');
                    break;
                case '″' or '”' or '“' or '＂':
                    builder.Append('"');
                    break;
                case '′' or '’' or '‘':
                    builder.Append('\'');
                    break;
                case '^' or '·' or '*':
                    break;
                case '−' or '–' or '‐' or '⁻':
                    builder.Append('-');
                    break;
                case 'º' or '˚':
                    builder.Append('°');
                    break;
                case '％':
                    builder.Append('%');
                    break;
                case '⁄' or '∕':
                    builder.Append('/');
                    break;
                case '_':
                    builder.Append(' ');
                    break;
                default:
                    builder.Append(char.IsWhiteSpace(c) ? ' ' : char.ToLowerInvariant(c));
                    break;
            }
        }

        return string.Concat(
            builder
                .ToString()
                .Split(' ', StringSplitOptions.RemoveEmptyEntries)
                .Select(w =>
                    w switch
                    {
                        "per" => "/",
                        "percent" or "pct" => "%",
                        _ => w,
                    }
                )
        );
    }
}
