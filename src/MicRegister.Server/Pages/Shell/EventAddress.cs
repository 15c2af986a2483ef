using MicRegister.Register.Events;

namespace MicRegister.Server.Pages.Shell;

/// <summary>Where an event stands: below its campaign, and there without the campaign's id before its own.</summary>
internal static class EventAddress
{
    /// <summary>Address of an event.</summary>
    public static string Of(RecordedEvent e) => Of(e.Campaign, e.Id);

    /// <summary>Address of an event of which only the ids are known.</summary>
    /// <param name="campaign">Id of its campaign.</param>
    /// <param name="id">Its id.</param>
    public static string Of(string campaign, string id) =>
        $"events/{Uri.EscapeDataString(campaign)}/{Uri.EscapeDataString(id[(id.IndexOf('.', StringComparison.Ordinal) + 1)..])}";
}
