namespace DeckLife.ReferenceChecks;

/// <summary>All reference cases of the project, ordered by their id.</summary>
public static class CaseCatalogue
{
    /// <summary>All cases.</summary>
    public static IReadOnlyList<ReferenceCase> All { get; } =
    [
        .. typeof(CaseCatalogue)
            .Assembly.GetTypes()
            .Where(t =>
                t is { IsClass: true, IsAbstract: false }
                && t.IsAssignableTo(typeof(IReferenceCaseSet))
            )
            .SelectMany(t => ((IReferenceCaseSet)Activator.CreateInstance(t)!).Cases())
            .OrderBy(c => c.Id, StringComparer.Ordinal),
    ];
}
