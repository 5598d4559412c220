using System.Globalization;
using DeckLife.Profiles;
using DeckLife.Quantities;

namespace DeckLife.Data.Tables;

/// <summary>Writes chloride tables that <see cref="ChlorideTable"/> reads back to the same cores.</summary>
public sealed record ChlorideTableWriter
{
    /// <summary>Unit of the depths.</summary>
    public required Unit DepthUnit { get; init; }

    /// <summary>Unit of the contents.</summary>
    public required Unit ContentUnit { get; init; }

    /// <summary>What is known of the concrete, for units by mass.</summary>
    public ConcreteMix Mix { get; init; }

    /// <summary>Between cells: comma, semicolon or tab.</summary>
    public char Separator { get; init; } = ',';

    /// <summary>Whether numbers have a decimal comma; then cells are parted by semicolons or tabs.</summary>
    public bool DecimalComma { get; init; }

    /// <summary>Writes the cores with their ages, positions, cracks, standard deviations and non-detects.</summary>
    /// <param name="cores">The cores; all slices with top and bottom, or all with the centre only.</param>
    /// <param name="output">Where to write.</param>
    /// <exception cref="ArgumentException">Slices with and without thickness are mixed, a core's name can't stand in a cell, or the decimal comma is also the separator.</exception>
    /// <exception cref="InvalidOperationException">The unit needs a density or binder content that is not given.</exception>
    public void Write(IReadOnlyList<CoreProfile> cores, TextWriter output)
    {
        ArgumentNullException.ThrowIfNull(cores);
        ArgumentNullException.ThrowIfNull(output);
        if (DecimalComma && Separator == ',')
        {
            throw new ArgumentException(
                "A decimal comma needs semicolons or tabs between the cells.",
                nameof(cores)
            );
        }

        var slices = cores.SelectMany(c => c.Slices).ToList();
        var centres = slices.Count > 0 && slices.TrueForAll(s => s.IsCentreOnly);
        if (!centres && slices.Exists(s => s.IsCentreOnly))
        {
            throw new ArgumentException(
                "Slices with and without thickness can't stand in one table.",
                nameof(cores)
            );
        }

        var placed = cores.Any(c => c.X is not null);
        var spread = slices.Exists(s => s.StandardDeviation is not null);
        string[] depths = centres
            ? [$"depth_{DepthUnit.Suffix}"]
            : [$"top_{DepthUnit.Suffix}", $"bottom_{DepthUnit.Suffix}"];
        string[] heads =
        [
            "core",
            "age_yr",
            .. depths,
            $"chloride_{ContentUnit.Suffix}",
            "n",
            "on_crack",
            .. spread ? new[] { $"sd_{ContentUnit.Suffix}" } : [],
            .. placed ? new[] { "x_m", "y_m" } : [],
        ];
        Line(output, heads);
        foreach (var core in cores)
        {
            foreach (var slice in core.Slices)
            {
                string[] cells =
                [
                    core.Core,
                    Number(core.ExposureAge.Years),
                    Number(slice.Top.Millimetres / DepthUnit.Factor),
                    .. centres
                        ? Array.Empty<string>()
                        : [Number(slice.Bottom.Millimetres / DepthUnit.Factor)],
                    (slice.IsNonDetect ? "<" : "") + Content(slice.Content.KilogramsPerCubicMetre),
                    slice.Replicates.ToString(CultureInfo.InvariantCulture),
                    core.OnCrack ? "yes" : "no",
                    .. spread ? new[] { slice.StandardDeviation is { } sd ? Content(sd) : "" } : [],
                    .. placed
                        ? new[]
                        {
                            core.X is { } x ? Number(x) : "",
                            core.Y is { } y ? Number(y) : "",
                        }
                        : [],
                ];
                Line(output, cells);
            }
        }
    }

    private string Content(double kg) =>
        Number(
            StatedChloride
                .FromContent(
                    ChlorideContent.FromKilogramsPerCubicMetre(kg),
                    ContentUnit,
                    Mix,
                    default
                )
                .Value
        );

    private string Number(double value)
    {
        var text = value.ToString("R", CultureInfo.InvariantCulture);
        return DecimalComma ? text.Replace('.', ',') : text;
    }

    private void Line(TextWriter output, string[] cells) =>
        output.Write(string.Join(Separator, cells.Select(Cell)) + "\n");

    private string Cell(string text)
    {
        if (text.AsSpan().ContainsAny('\n', '\r'))
        {
            throw new ArgumentException($"'{text}' can't stand in a cell: it has a line break.");
        }

        return
            text.Contains(Separator, StringComparison.Ordinal)
            || text.Contains('"', StringComparison.Ordinal)
            ? "\"" + text.Replace("\"", "\"\"", StringComparison.Ordinal) + "\""
            : text;
    }
}
