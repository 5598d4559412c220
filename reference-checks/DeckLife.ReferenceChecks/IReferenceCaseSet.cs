namespace DeckLife.ReferenceChecks;

/// <summary>A file of reference cases; found by reflection, so that a new file needs no list to be edited.</summary>
public interface IReferenceCaseSet
{
    /// <summary>The cases, in the order in which RESULTS.md shows them.</summary>
    IEnumerable<ReferenceCase> Cases();
}
