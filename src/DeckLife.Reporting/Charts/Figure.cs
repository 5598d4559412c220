using Microsoft.FSharp.Core;
using Plotly.NET;

namespace DeckLife.Reporting.Charts;

/// <summary>Builds a figure from traces and a layout; properties bear the chart library's own names.</summary>
internal sealed class Figure
{
    private readonly List<GenericChart> traces = [];
    private readonly Dictionary<string, object> layout = new(StringComparer.Ordinal)
    {
        ["margin"] = new
        {
            l = 64,
            r = 16,
            t = 16,
            b = 56,
        },
        ["hovermode"] = "closest",
        ["showlegend"] = true,
        ["legend"] = new
        {
            orientation = "h",
            y = 1.02,
            yanchor = "bottom",
            x = 0,
        },
    };

    /// <summary>Adds a trace.</summary>
    public Figure Add(string type, params (string Name, object? Value)[] properties)
    {
        var trace = new Trace(type);
        foreach (var (name, value) in properties)
        {
            trace.SetProperty(name, Clean(value));
        }

        traces.Add(GenericChart.ofTraceObject(false, trace));
        return this;
    }

    /// <summary>Sets parts of the layout.</summary>
    public Figure Layout(params (string Name, object Value)[] properties)
    {
        foreach (var (name, value) in properties)
        {
            layout[name] = value;
        }

        return this;
    }

    /// <summary>The figure as JSON.</summary>
    public string ToJson()
    {
        var chart = GenericChart.combine(traces);
        var set = FuncConvert.FromFunc<Layout, Layout>(l =>
        {
            foreach (var (name, value) in layout)
            {
                l.SetProperty(name, value);
            }

            return l;
        });
        return GenericChart.toFigureJson(GenericChart.setLayout(set.Invoke(new Layout()), chart));
    }

    /// <summary>An axis with a title.</summary>
    public static Dictionary<string, object> Axis(
        string title,
        params (string Name, object Value)[] properties
    )
    {
        var axis = new Dictionary<string, object>(StringComparer.Ordinal)
        {
            ["title"] = new { text = title },
            ["automargin"] = true,
        };
        foreach (var (name, value) in properties)
        {
            axis[name] = value;
        }

        return axis;
    }

    // A gap in a line is null; a number that is not finite would be a word in JSON.
    private static object? Clean(object? value) =>
        value switch
        {
            double[] numbers => Array.ConvertAll(
                numbers,
                n => double.IsFinite(n) ? Math.Round(n, 9) : (double?)null
            ),
            double?[] numbers => Array.ConvertAll(
                numbers,
                n => n is { } x && double.IsFinite(x) ? Math.Round(x, 9) : (double?)null
            ),
            _ => value,
        };
}
