namespace DeckLife.Economics;

/// <summary>Money at one time; a cost is positive, an income (such as a residual value) negative.</summary>
/// <param name="TimeYr">Time from the survey [yr]; time 0 is not discounted.</param>
/// <param name="Amount">Amount, in the currency and price year of its price list.</param>
/// <param name="Item">What is paid.</param>
/// <param name="PaidBy">Who pays.</param>
public readonly record struct Payment(
    double TimeYr,
    double Amount,
    string Item,
    Payer PaidBy = Payer.Agency
);
