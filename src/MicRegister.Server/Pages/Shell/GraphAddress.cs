using MicRegister.Register.Tracing;

namespace MicRegister.Server.Pages.Shell;

/// <summary>Where something in the graph of what rests on what can be walked on from.</summary>
internal static class GraphAddress
{
    /// <summary>Address of its neighbours; null for words that name nothing of the register.</summary>
    public static string? Of(GraphNode node) => node.Kind switch
    {
        "text" => null,
        "campaign" => "events/" + Uri.EscapeDataString(node.Id),
        _ => $"rests-on/{node.Kind}/{Uri.EscapeDataString(node.Id)}",
    };

    /// <summary>Address of its own page; null where it has none.</summary>
    public static string? Page(GraphNode node) => node.Kind switch
    {
        "device" => DeviceAddress.Of(node.Id),
        "event" => EventAddress.Of(node.Id.Split('.')[0], node.Id),
        _ => null,
    };
}
