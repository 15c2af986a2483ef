using System.Text.Json.Nodes;
using MicRegister.Documents.Sheets;
using MicRegister.Register.Facts;
using MicRegister.Server.Remote;
using MicRegister.Server.Setup;

namespace MicRegister.Server.Commands;

/// <summary>Exit codes of all commands, and the one place that turns what users can get wrong into a message.</summary>
internal static class CommandExit
{
    /// <summary>Ready, whole, or done.</summary>
    public const int Good = 0;

    /// <summary>Not ready, or damaged.</summary>
    public const int NotReady = 1;

    /// <summary>Bad use or bad input; nothing was stored.</summary>
    public const int BadUse = 2;

    /// <summary>A server's answer was lost: nobody knows whether it was stored.</summary>
    public const int NotKnown = 3;

    /// <summary>Runs a command's work.</summary>
    /// <param name="work">The work.</param>
    /// <param name="asJson">Whether what went wrong is said as JSON too, where a program waits for an answer.</param>
    public static async Task<int> Run(Func<Task<int>> work, bool asJson = false)
    {
        try
        {
            return await work();
        }
        catch (StoreInUseException e)
        {
            Say($"{e.Message} Nothing was stored; use {e.Address ?? "that program"} or stop it first.", asJson);
        }
        catch (Exception e) when (e is SheetException or BadUseException or IOException or UnauthorizedAccessException or FormatException)
        {
            Say(e.Message, asJson);
        }
        catch (AnswerLostException e)
        {
            Say(e.Message, asJson);
            return NotKnown;
        }
        catch (OperationCanceledException)
        {
            Say("Stopped; nothing was stored.", asJson);
        }
        return BadUse;
    }

    private static void Say(string why, bool asJson)
    {
        if (asJson) Console.WriteLine(new JsonObject { ["error"] = why }.ToJsonString());
        else Console.Error.WriteLine(why);
    }
}
