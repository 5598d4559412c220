using System.Collections.Immutable;
using DeckLife.Fitting;
using DeckLife.Profiles;
using DeckLife.Projection;
using DeckLife.Quantities;
using DeckLife.Reporting;
using DeckLife.Reporting.Sections;
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
            Show<IReportPart>(part => part);
            Show<Deck>(DomainParts.Of);
            Show<CoreProfile>(DomainParts.Of);
            Show<ProfileFit>(DomainParts.Of);
            Show<ImmutableArray<ProfileFit>>(DomainParts.Of);
            Show<DeckFit>(DomainParts.Of);
            Show<DeckProjection>(DomainParts.Of);
            Show<StrategyExploration>(exploration => new ExplorerPart(exploration));
            ShowAsText<Depth>();
            ShowAsText<Age>();
            ShowAsText<ChlorideContent>();
            ShowAsText<DiffusionCoefficient>();
            ShowAsText<Temperature>();
        }
    }

    private static void Show<T>(Func<T, IReportPart> part)
    {
        Formatter.Register<T>(
            (value, writer) => writer.Write(part(value).ToHtml().Markup),
            "text/html"
        );
        Formatter.Register<T>((value, writer) => writer.Write(part(value).ToText()), "text/plain");
        Formatter.SetPreferredMimeTypesFor(typeof(T), "text/html", "text/plain");
    }

    private static void ShowAsText<T>()
        where T : struct
    {
        Formatter.Register<T>((value, writer) => writer.Write(value.ToString()), "text/plain");
        Formatter.SetPreferredMimeTypesFor(typeof(T), "text/plain");
    }
}
