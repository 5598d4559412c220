using System.Collections.Immutable;

namespace DeckLife.Reporting.Charts;

/// <summary>
/// Colours and dashes. The colours are the qualitative palette of Okabe and Ito (Color Universal Design, 2008), which
/// readers with any common colour blindness can tell apart; the dashes tell the lines apart in black and white.
/// </summary>
internal static class ChartPalette
{
    /// <summary>Lines of strategies, in the deck's order; they repeat beyond the last.</summary>
    public static ImmutableArray<string> Lines { get; } =
    ["#0072B2", "#D55E00", "#009E73", "#CC79A7", "#E69F00", "#56B4E9"];

    /// <summary>Dashes that go with the lines; seven against six colours, so that 42 pairs differ.</summary>
    public static ImmutableArray<string> Dashes { get; } =
    ["solid", "dash", "dashdot", "dot", "longdash", "longdashdot", "5px,2px,2px,2px"];

    /// <summary>Measured values.</summary>
    public const string Measured = "#0072B2";

    /// <summary>Fitted curves.</summary>
    public const string Fitted = "#D55E00";

    /// <summary>What was left out.</summary>
    public const string LeftOut = "#8A8A8A";

    /// <summary>Limits and criteria.</summary>
    public const string Limit = "#8A8A8A";

    /// <summary>An even, colour-blind-safe scale for maps.</summary>
    public const string MapScale = "Cividis";

    /// <summary>The line of the n-th strategy.</summary>
    public static string Line(int index) => Lines[index % Lines.Length];

    /// <summary>The dash of the n-th strategy.</summary>
    public static string Dash(int index) => Dashes[index % Dashes.Length];

    /// <summary>A colour made translucent.</summary>
    public static string Translucent(string hex, string alpha) =>
        FormattableString.Invariant(
            $"rgba({Convert.ToInt32(hex[1..3], 16)},{Convert.ToInt32(hex[3..5], 16)},{Convert.ToInt32(hex[5..7], 16)},{alpha})"
        );
}
