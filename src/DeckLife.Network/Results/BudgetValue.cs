using DeckLife.Network.Programs;

namespace DeckLife.Network.Results;

/// <summary>What the best program is worth with another budget.</summary>
/// <param name="Factor">Factor on every year's budget.</param>
/// <param name="Budget">Money over all years.</param>
/// <param name="Spent">Money that the program spends.</param>
/// <param name="ValueM2Yr">Weighted damaged area avoided [m²·yr].</param>
/// <param name="BoundM2Yr">No program with this money avoids more [m²·yr].</param>
/// <param name="Status">How sure the program is to be the best.</param>
/// <param name="Gap">How much better another program could be, a share.</param>
public sealed record BudgetValue(
    double Factor,
    long Budget,
    long Spent,
    double ValueM2Yr,
    double BoundM2Yr,
    ProgramStatus Status,
    double Gap
);
