namespace MicRegister.Documents.Tests.Corpus;

/// <summary>The shapes by which a reader may learn.</summary>
internal static class Shapes
{
    // New ones stand last, so that the others keep their seeds.
    public static IReadOnlyList<Shape> All { get; } =
    [
        .. InventoryShapes.All, .. LayoutShapes.All, .. HistoryShapes.All, .. DayShapes.All, .. SetShapes.All, .. FormerlyLastShapes.All,
        .. FurtherShapes.All, .. FormerlyLastShapes2.All, .. FormerlyLastShapes3.All,
        .. FormerlyLastShapes4.All, .. FormerlyLastShapes5.All, .. FormerlyLastShapes6.All,
    ];
}
