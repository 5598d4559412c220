using DeckLife.Reporting;
using Microsoft.DotNet.Interactive.Formatting;

namespace DeckLife.Notebooks;

/// <summary>Makes the library's objects show themselves in a cell: as a page part, and as text for terminals.</summary>
public static class DomainFormatters
{
    private static readonly Lock Gate = new();
    private static bool registered;

    /// <summary>Registers the formatters; more than once does no harm.</summary>
    public static void Register()
    {
        lock (Gate)
        {
            if (registered)
            {
                return;
            }

            registered = true;
            Formatter.Register<IReportPart>(
                (part, writer) => writer.Write(part.ToHtml().Markup),
                "text/html"
            );
            Formatter.Register<IReportPart>(
                (part, writer) => writer.Write(part.ToText()),
                "text/plain"
            );
            Formatter.SetPreferredMimeTypesFor(typeof(IReportPart), "text/html", "text/plain");
        }
    }
}
