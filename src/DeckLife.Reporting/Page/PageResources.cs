using System.Reflection;

namespace DeckLife.Reporting.Page;

/// <summary>The stylesheets and scripts that a page carries within itself.</summary>
internal static class PageResources
{
    private static readonly Lazy<string> Chart = new(() =>
        Read(
            typeof(Plotly.NET.GenericChart).Assembly,
            n =>
                n.Contains("plotly-", StringComparison.Ordinal)
                && n.EndsWith(".min.js", StringComparison.Ordinal)
        )
    );

    /// <summary>The chart library (plotly.js, MIT licence; its notice stands at its head).</summary>
    public static string ChartLibrary => Chart.Value;

    /// <summary>One of this project's own page files.</summary>
    public static string Own(string name) =>
        Read(
            typeof(PageResources).Assembly,
            n => n.EndsWith(".Page." + name, StringComparison.Ordinal)
        );

    private static string Read(Assembly assembly, Func<string, bool> named)
    {
        var name = assembly.GetManifestResourceNames().Single(named);
        using var reader = new StreamReader(assembly.GetManifestResourceStream(name)!);
        // Nothing in a script may end the script element.
        return reader
            .ReadToEnd()
            .Replace("</script", "<\\/script", StringComparison.OrdinalIgnoreCase)
            .ReplaceLineEndings("\n");
    }
}
