"""Every sentence that a drawing or book prints, one file a language."""
