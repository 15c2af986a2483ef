using MicRegister.Register.Facts;

namespace MicRegister.Register.Intake;

/// <summary>
/// Something that a phone sent as a fact and that is none. It is kept as an attachment for a person to look at. Subject: the item.
/// </summary>
/// <param name="Sha256">SHA-256 of its bytes, in hexadecimal: the attachment's.</param>
/// <param name="Bytes">Its size.</param>
/// <param name="From">Who sent it.</param>
/// <param name="Why">Why it is no fact.</param>
public sealed record ItemPutAside(string Sha256, long Bytes, string From, string Why) : FactBody;
